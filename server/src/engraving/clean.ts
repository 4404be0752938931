// Takes half-typed slurs and ties out of the library's tree, which would otherwise be drawn through every later system.
import type { LibElement, LibLine, LibPitch } from './library.ts';

interface SlurStart {
  readonly owner: { startSlur?: { label: number }[] };
  readonly slur: { label: number };
}

/** One drawn voice through all lines: the elements in order. */
function voicesOf(lines: readonly LibLine[]): LibElement[][] {
  const voices = new Map<string, LibElement[]>();
  for (const line of lines) {
    line.staff?.forEach((staff, s) => {
      staff.voices.forEach((elements, v) => {
        const key = `${s} ${v}`;
        const voice = voices.get(key);
        if (voice === undefined) voices.set(key, [...elements]);
        else voice.push(...elements);
      });
    });
  }
  return [...voices.values()];
}

const carriers = (element: LibElement): (LibElement | LibPitch)[] => [...(element.gracenotes ?? []), ...(element.pitches ?? []), element];

/** Calls back with each end and each start of a slur, in the order of the voice. */
function eachSlur(
  elements: readonly LibElement[],
  onEnd: (label: number, set: (label: number) => void) => void,
  onStart: (start: SlurStart) => void,
): void {
  for (const element of elements) {
    for (const owner of carriers(element)) {
      owner.endSlur?.forEach((label, i) => {
        onEnd(label, (other) => {
          owner.endSlur![i] = other;
        });
      });
      for (const slur of owner.startSlur ?? []) onStart({ owner, slur });
    }
  }
}

/** Slurs without an end are taken out. */
function dropOpenSlurs(elements: readonly LibElement[]): void {
  const open = new Map<number, SlurStart>();
  const dropped: SlurStart[] = [];
  eachSlur(
    elements,
    (label) => open.delete(label),
    (start) => {
      const same = open.get(start.slur.label);
      if (same !== undefined) dropped.push(same);
      open.set(start.slur.label, start);
    },
  );
  for (const { owner, slur } of [...dropped, ...open.values()]) {
    const left = owner.startSlur!.filter((other) => other !== slur);
    if (left.length === 0) delete owner.startSlur;
    else owner.startSlur = left;
  }
}

const firstLabel = 101;
/** Of an end without a start: the library draws it from the left edge, and must not take another slur's start for it. */
const noLabel = 0;

/** The parser numbers slurs over the whole text; the lowest number free in the voice keeps a later system's tree the same. */
function renumberSlurs(elements: readonly LibElement[]): void {
  const open = new Map<number, number>();
  const lowestFree = (): number => {
    const used = new Set(open.values());
    let label = firstLabel;
    while (used.has(label)) label++;
    return label;
  };
  eachSlur(
    elements,
    (label, set) => {
      set(open.get(label) ?? noLabel);
      open.delete(label);
    },
    ({ slur }) => {
      const own = lowestFree();
      open.set(slur.label, own);
      slur.label = own;
    },
  );
}

/** A tie that meets no head of the same voice, or a rest first, is never closed by the library. */
function cleanTies(elements: readonly LibElement[]): void {
  let open: LibPitch[] = [];
  const drop = () => {
    for (const pitch of open) delete pitch.startTie;
    open = [];
  };
  const close = (end: LibPitch) => {
    const same = open.findIndex((start) => start.pitch === end.pitch);
    open.splice(Math.max(same, 0), 1);
  };
  for (const element of elements) {
    if (element.el_type !== 'note') continue;
    if (element.pitches === undefined) {
      if (element.rest !== undefined && element.rest.type !== 'spacer') drop();
      continue;
    }
    for (const pitch of element.pitches) if (pitch.endTie === true) close(pitch);
    drop();
    open = element.pitches.filter((pitch) => pitch.startTie !== undefined);
  }
  drop();
}

/** Cleans all voices of a freshly parsed tree in place. */
export function cleanTree(lines: readonly LibLine[]): void {
  for (const voice of voicesOf(lines)) {
    dropOpenSlurs(voice);
    renumberSlurs(voice);
    cleanTies(voice);
  }
}
