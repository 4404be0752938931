// Pins: what the player decided about a note's finger, string and harmonic, read from decorations and string texts.
import type { Tuning } from '../bass/types.ts';
import type { Finger } from '../fingering/types.ts';
import type { Head, Mark, ScoreNote, Voice } from '../score/types.ts';
import type { Span } from '../text/span.ts';
import type { HeadPin, PartProblem } from './types.ts';

type StringPin = NonNullable<HeadPin['string']>;
type FingerPin = NonNullable<HeadPin['finger']>;

/** Pins of every note's heads (those that sound anew), by note id, and what is wrong with them. */
export interface Pins {
  readonly byNote: ReadonlyMap<number, readonly HeadPin[]>;
  readonly problems: readonly PartProblem[];
}

export const noPin: HeadPin = { finger: null, string: null, harmonic: null };

/** Names of decorations that pin a finger. */
export const fingerMarks: Readonly<Record<string, Finger>> = { '0': '0', '1': '1', '2': '2', '3': '3', '4': '4', thumb: 'T' };

/** Reads the pins of a voice. `soundingOf` gives the sounding pitch of a head. */
export function readPins(voice: Voice, tuning: Tuning, soundingOf: (note: ScoreNote, head: Head) => number): Pins {
  const byNote = new Map<number, readonly HeadPin[]>();
  const problems: PartProblem[] = [];
  const partStarts = new Set(voice.parts.map((part) => part.bar));
  let carried: StringPin | null = null;
  let bar = -1;
  for (const note of voice.notes) {
    if (note.bar !== bar && partStarts.has(note.bar)) carried = null;
    bar = note.bar;
    problems.push(...chordSymbolProblems(note.marks));
    carried = stringText(note.marks, tuning, problems) ?? carried;
    const heads = note.heads.filter((head) => !head.tied);
    if (heads.length > 1) problems.push(...misplacedPins(note));
    if (heads.length === 0) problems.push(...heldProblems(note, tuning));
    byNote.set(
      note.id,
      heads.map((head) =>
        headPin(
          heads.length > 1 ? head.marks : [...head.marks, ...note.marks],
          heads.length > 1 ? null : carried,
          soundingOf(note, head),
          tuning,
          problems,
        ),
      ),
    );
  }
  return { byNote, problems };
}

/** A note that is only held is not placed anew, but what is wrong with its marks is told all the same. */
function heldProblems(note: ScoreNote, tuning: Tuning): readonly PartProblem[] {
  const problems: PartProblem[] = [];
  headPin([...note.heads.flatMap((head) => head.marks), ...note.marks], null, 0, tuning, problems);
  return problems;
}

/** String names as the tunings give them: a letter, an accidental, and a number where two strings share a letter. */
const bareString = /^sul ([A-G][#b]?\d?)$/i;

/** `"sul G"` without a placement sign is a chord symbol by the standard. */
function chordSymbolProblems(marks: readonly Mark[]): readonly PartProblem[] {
  return marks.flatMap((mark) => {
    if (mark.kind !== 'chord-symbol' || !bareString.test(mark.text.trim())) return [];
    const place = { from: mark.from + 1, to: mark.from + 1 };
    return {
      code: 'pin.chord-symbol' as const,
      from: mark.from,
      to: mark.to,
      message: `"${mark.text}" without a placement sign is a chord symbol, so it chooses no string. Write "^${mark.text}".`,
      fix: { title: `Write "^${mark.text}"`, edits: [{ span: place, insert: '^' }] },
    };
  });
}

/** The string that an annotation chooses from here on; unknown strings are told. */
function stringText(marks: readonly Mark[], tuning: Tuning, problems: PartProblem[]): StringPin | null {
  let found: StringPin | null = null;
  for (const mark of marks) {
    const given = mark.kind === 'annotation' ? bareString.exec(mark.text.trim())?.[1] : undefined;
    if (given === undefined) continue;
    const name = given.charAt(0).toUpperCase() + given.slice(1);
    if (hasString(tuning, name)) found = { value: name, span: spanOf(mark), carried: true };
    else problems.push(unknownString(mark, name, tuning));
  }
  return found;
}

const spanOf = (span: Span): Span => ({ from: span.from, to: span.to });
const hasString = (tuning: Tuning, name: string): boolean => tuning.strings.some((string) => string.name === name);

function unknownString(mark: Mark, name: string, tuning: Tuning): PartProblem {
  const names = tuning.strings.map((string) => string.name).join(', ');
  return {
    code: 'pin.unknown-string',
    ...spanOf(mark),
    message: `This instrument has no ${name} string; it has ${names}. Choose one of them, or declare another tuning.`,
    fix: { title: 'Take the string mark out', edits: [{ span: spanOf(mark), insert: '' }] },
  };
}

/** In a double stop a finger or string before the brackets could mean either head. */
function misplacedPins(note: ScoreNote): readonly PartProblem[] {
  const inside = note.heads[0]?.from ?? note.from;
  return note.marks.flatMap((mark) => {
    if (mark.kind !== 'decoration' || pinOf(mark.name) === null) return [];
    return {
      code: 'pin.contradiction' as const,
      ...spanOf(mark),
      message: `In a double stop a finger or string stands inside the brackets, before its own note; here it could mean either.`,
      fix:
        mark.source === 'symbol-line'
          ? null
          : {
              title: 'Move it inside, to the first note',
              edits: [
                { span: spanOf(mark), insert: '' },
                { span: { from: inside, to: inside }, insert: `!${mark.name}!` },
              ],
            },
    };
  });
}

type PinMark =
  | { readonly kind: 'finger'; readonly finger: Finger }
  | { readonly kind: 'string'; readonly name: string }
  | { readonly kind: 'open' };

/** What a decoration's name pins, if anything. */
export function pinOf(name: string): PinMark | null {
  const finger = fingerMarks[name];
  if (finger !== undefined) return { kind: 'finger', finger };
  const string = /^sul([A-G][#b]?\d?)$/.exec(name)?.[1];
  if (string !== undefined) return { kind: 'string', name: string };
  return name === 'open' ? { kind: 'open' } : null;
}

function headPin(marks: readonly Mark[], carried: StringPin | null, sounding: number, tuning: Tuning, problems: PartProblem[]): HeadPin {
  let finger: FingerPin | null = null;
  let string: StringPin | null = null;
  let open: Span | null = null;
  for (const mark of marks) {
    const pin = mark.kind === 'decoration' ? pinOf(mark.name) : null;
    if (mark.kind === 'decoration' && mark.name === '5') problems.push(noSuchFinger(mark));
    if (pin?.kind === 'finger') finger = keepFirst(finger, { value: pin.finger, span: spanOf(mark) }, problems);
    if (pin?.kind === 'open') open ??= spanOf(mark);
    if (pin?.kind !== 'string') continue;
    if (hasString(tuning, pin.name)) string = keepFirst(string, { value: pin.name, span: spanOf(mark), carried: false }, problems);
    else problems.push(unknownString(mark, pin.name, tuning));
  }
  return withOpen(finger, string ?? carried, open, sounding, tuning);
}

/** `!open!` means the open string where the pitch is one, and a natural harmonic elsewhere. */
function withOpen(finger: FingerPin | null, string: StringPin | null, open: Span | null, sounding: number, tuning: Tuning): HeadPin {
  if (open === null) return { finger, string, harmonic: null };
  const isOpen = tuning.strings.some((s) => s.open === sounding && (string === null || string.value === s.name));
  if (isOpen) return { finger: finger ?? { value: '0', span: open }, string, harmonic: null };
  return { finger, string, harmonic: { span: open } };
}

function keepFirst<T extends FingerPin | StringPin>(first: T | null, next: T, problems: PartProblem[]): T {
  if (first === null || first.value === next.value) return first ?? next;
  const what = 'carried' in next ? 'string' : 'finger';
  problems.push({
    code: 'pin.contradiction',
    ...next.span,
    message: `This note already has ${what} ${first.value}; ${what} ${next.value} contradicts it. Keep one.`,
    fix: { title: `Keep ${what} ${first.value}`, edits: [{ span: next.span, insert: '' }] },
  });
  return first;
}

function noSuchFinger(mark: Mark): PartProblem {
  return {
    code: 'pin.contradiction',
    ...spanOf(mark),
    message: 'The left hand has fingers 1 to 4 and the thumb (!thumb!); there is no finger 5 on the bass.',
    fix: { title: 'Take the finger out', edits: [{ span: spanOf(mark), insert: '' }] },
  };
}
