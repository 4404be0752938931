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

/** Slur labels are numbered by the parser over the whole text; the lowest free number of the voice keeps a later system's tree the same. */
function cleanSlurs(elements: readonly LibElement[]): void {
  const open = new Map<number, SlurStart>();
  const lowestFree = (): number => {
    const used = new Set([...open.values()].map((start) => start.slur.label));
    let label = 101;
    while (used.has(label)) label++;
    return label;
  };
  for (const element of elements) {
    for (const owner of carriers(element)) {
      owner.endSlur?.forEach((label, i) => {
        const start = open.get(label);
        if (start === undefined) return;
        open.delete(label);
        owner.endSlur![i] = start.slur.label;
      });
      for (const slur of owner.startSlur ?? []) {
        const label = slur.label;
        const start = { owner, slur };
        slur.label = lowestFree();
        open.set(label, start);
      }
    }
  }
  for (const { owner, slur } of open.values()) {
    const left = owner.startSlur!.filter((other) => other !== slur);
    if (left.length === 0) delete owner.startSlur;
    else owner.startSlur = left;
  }
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
    cleanSlurs(voice);
    cleanTies(voice);
  }
}
