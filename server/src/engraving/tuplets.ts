// Tuplets that go on over a line's end: the library forgets them there, so that each line gets its own part of the bracket, open to the side where the rest is.
import type { LibBracket, LibElement, LibLine, LibStaffGroup } from './library.ts';
import type { Recorded } from './picture.ts';

/** A tuplet with so many of its notes still to come. */
interface OpenTuplet {
  readonly number: number;
  readonly multiplier: number;
  readonly left: number;
}

/** The library counts rests, and leaves out what only takes room. */
const counts = (element: LibElement): boolean => element.el_type === 'note' && element.rest?.type !== 'spacer';

const begun = (element: LibElement): OpenTuplet | null => {
  const { startTriplet: number, tripletMultiplier: multiplier = 1, tripletR: left = number } = element;
  return number === undefined || left === undefined ? null : { number, multiplier, left };
};

/** Puts the parts of tuplets on the elements of one voice of a line; returns the tuplet that goes on into the next line. */
function splitIn(elements: readonly LibElement[], before: OpenTuplet | null): OpenTuplet | null {
  if (before === null && elements.every(({ startTriplet }) => startTriplet === undefined)) return null;
  const notes = elements.filter(counts);
  let open = before;
  let first: LibElement | null = null;
  for (const element of notes) {
    const own = begun(element);
    if (own !== null) {
      open = own;
      first = element;
    } else if (open !== null && first === null) {
      first = element;
      Object.assign(element, { startTriplet: open.number, tripletMultiplier: open.multiplier, openTuplet: 'left' });
    }
    if (open === null) continue;
    open = { ...open, left: open.left - 1 };
    if (open.left > 0) continue;
    element.endTriplet = true;
    open = null;
    first = null;
  }
  const last = notes.at(-1);
  if (open === null || first === null || last === undefined) return open;
  last.endTriplet = true;
  first.openTuplet = first.openTuplet === 'left' ? 'both' : 'right';
  return open;
}

/** Splits the tuplets of a freshly parsed tree at the ends of its lines, in place. One that no later note of its voice ends is closed at its last. */
export function splitTuplets(lines: readonly LibLine[]): void {
  let open = new Map<string, OpenTuplet | null>();
  for (const line of lines) {
    if (line.staff === undefined) continue;
    const next = new Map<string, OpenTuplet | null>();
    line.staff.forEach((staff, s) => {
      staff.voices.forEach((elements, v) => {
        const key = `${s} ${v}`;
        next.set(key, splitIn(elements, open.get(key) ?? null));
      });
    });
    open = next;
  }
}

/** From the first note of a later part to the left end of its bracket. */
const lead = 14;
/** Least width of a bracket: the library leaves a gap of 16 for the figure. */
const leastBracket = 24;

const bracketsOf = (group: LibStaffGroup): LibBracket[] =>
  group.voices.flatMap((voice) => voice.otherchildren.filter((child): child is LibBracket => child.type === 'TripletElem'));

const sideOf = (bracket: LibBracket): LibElement['openTuplet'] => bracket.anchor1.parent.abcelem.openTuplet;

/** Lets the brackets of split tuplets reach to where the line ends or begins. To be called between layout and drawing. */
export function stretchBrackets(group: LibStaffGroup): void {
  for (const bracket of bracketsOf(group)) {
    const side = sideOf(bracket);
    if (side === undefined || bracket.hasBeam === true || bracket.anchor2 === undefined) continue;
    const { anchor1, anchor2 } = bracket;
    const to = side === 'left' ? anchor2.x + anchor2.w : group.w - 2;
    const from = Math.min(side === 'right' ? anchor1.x : anchor1.x - lead, to - leastBracket);
    bracket.anchor1 = { parent: anchor1.parent, w: anchor1.w, x: from };
    bracket.anchor2 = { x: to, w: 0 };
    bracket.xTextPos = (from + to) / 2;
  }
}

function pathsNamed(node: Recorded, name: string): Recorded[] {
  const own = node.getAttribute('data-name') === name ? [node] : [];
  return [...own, ...node.children.flatMap((child) => pathsNamed(child, name))];
}

/** The library draws a bracket as left hook, right hook, left half, right half, each from a move. */
function withoutHooks(path: string, side: NonNullable<LibElement['openTuplet']>): string {
  const [left, right, ...line] = path.split(/(?=M)/);
  const hooks = [side === 'right' ? left : '', side === 'left' ? right : ''];
  return [...hooks, ...line].join('');
}

/** Takes the hooks off the open sides of the brackets just drawn. */
export function openBrackets(picture: Recorded, group: LibStaffGroup): void {
  const sides = bracketsOf(group)
    .filter(({ hasBeam }) => hasBeam !== true)
    .map(sideOf);
  if (sides.every((side) => side === undefined)) return;
  const paths = pathsNamed(picture, 'triplet-bracket');
  sides.forEach((side, i) => {
    const path = paths[i];
    if (side !== undefined && path !== undefined) path.setAttribute('d', withoutHooks(path.getAttribute('d') ?? '', side));
  });
}
