// Writing pins into the text: one place chosen for one head, and taking pins out again.
import type { Finger } from '../fingering/types.ts';
import type { Edit, Span } from '../text/span.ts';
import type { HeadPin, PartNote, PlanPlace } from './types.ts';

/** The part of a place that a pin can say. */
export type PinnedPlace = Pick<PlanPlace, 'string' | 'finger' | 'harmonic'>;

/** The decoration that pins a finger. */
export const fingerText = (finger: Finger): string => (finger === 'T' ? '!thumb!' : `!${finger}!`);
/** The decoration that pins a string. */
export const stringText = (name: string): string => `!sul${name}!`;

/** Where inline pins of a head stand: before the head, inside the brackets of a double stop. */
export function pinPlace(note: PartNote, head: number): Span {
  const heads = freshHeads(note);
  const at = (heads[head] ?? note.note).from;
  return { from: at, to: at };
}

/** Where a note begins with its inline marks (all, or decorations only), if nothing but marks stands between: what is put there keeps pins and pitch together. */
export function startOfMarks(text: string, note: PartNote, which: 'all' | 'decorations'): number {
  const inline = note.note.marks.filter((mark) => mark.source === 'inline' && (which === 'all' || mark.kind === 'decoration'));
  const first = Math.min(note.note.from, ...inline.map((mark) => mark.from));
  return /[()|\r\n]/.test(text.slice(first, note.note.from)) ? note.note.from : first;
}

const freshHeads = (note: PartNote): readonly Span[] => {
  const fresh = note.note.heads.filter((one) => !one.tied);
  return fresh.length > 0 ? fresh : note.note.heads;
};

/** Edits that make the text pin this head to this place: pins that say otherwise are replaced, missing ones written, right ones left. */
export function pinEdits(note: PartNote, head: number, place: PinnedPlace): readonly Edit[] {
  const pin = note.pins[head];
  if (pin === undefined) return [];
  const wanted = wantedMarks(pin, place);
  const replaced = wanted.flatMap(({ span, mark }): readonly Edit[] => (span === null ? [] : [{ span, insert: mark ?? '' }]));
  const added = wanted.map(({ span, mark }) => (span === null ? (mark ?? '') : '')).join('');
  const edits = added === '' ? replaced : [...replaced, { span: pinPlace(note, head), insert: added }];
  return edits.sort((a, b) => a.span.from - b.span.from);
}

/** A mark to put over `span`, or to add where `span` is null; a null mark takes it out. */
interface Wanted {
  readonly span: Span | null;
  readonly mark: string | null;
}

function wantedMarks(pin: HeadPin, place: PinnedPlace): readonly Wanted[] {
  const wanted: Wanted[] = [];
  if (pin.finger?.value !== place.finger) wanted.push({ span: pin.finger?.span ?? null, mark: fingerText(place.finger) });
  const own = pin.string !== null && !pin.string.carried ? pin.string.span : null;
  const needed = place.finger !== '0' || pin.string !== null;
  if (pin.string?.value !== place.string && needed) wanted.push({ span: own, mark: stringText(place.string) });
  if (place.harmonic && pin.harmonic === null) wanted.push({ span: null, mark: '!open!' });
  if (!place.harmonic && pin.harmonic !== null) wanted.push({ span: pin.harmonic.span, mark: null });
  return wanted;
}

/** Edits that take a note's own pins out; string texts further back stay. */
export function unpinEdits(note: PartNote): readonly Edit[] {
  return note.pins
    .flatMap((pin) => [pin.finger?.span, pin.string?.carried === false ? pin.string.span : undefined, pin.harmonic?.span])
    .filter((span) => span !== undefined)
    .map((span) => ({ span, insert: '' }))
    .sort((a, b) => a.span.from - b.span.from);
}
