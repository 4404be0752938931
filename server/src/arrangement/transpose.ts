// Transposing a tune in its text: keys, notes and chords move by one spelled interval, so that moving back restores them; pins go along where they can.
import type { Field, KeyValue } from '../abc/tree/fields.ts';
import type { MusicItem } from '../abc/tree/items.ts';
import { letterIndex, signatureOf } from '../score/index.ts';
import type { Mark, NoteId } from '../score/types.ts';
import type { Edit, Span } from '../text/span.ts';
import { suggestionText } from './chord-names.ts';
import { type Interval, intervalFor, movedChordText, movedKeyText, movedPitch, type SpelledPitch } from './interval.ts';
import { fingerText, stringText } from './pin-edits.ts';
import { accidentalFor, pitchAt, pitchText } from './pitch-text.ts';
import { keepingSymbolPlaces } from './symbol-places.ts';
import type { BassPart, HeadPin, PartNote, PartStage } from './types.ts';

/** What became of a pin. */
export interface PinFate extends Span {
  readonly note: NoteId;
  readonly fate: 'moved' | 'lost';
  /** In words for the player. */
  readonly message: string;
}

export interface Transposition {
  readonly edits: readonly Edit[];
  readonly pins: readonly PinFate[];
}

/** Edits that transpose a whole tune by semitones (all voices), and what happens to each pin that cannot simply stay. */
export function transposeEdits(stage: PartStage, semitones: number): Transposition {
  const by = intervalFor(stage.score.key, semitones);
  const pins = stage.parts.flatMap((part) => (part.kind === 'bass' ? pinMoves(part, semitones) : []));
  const texts = stage.parts.flatMap((part) => (part.kind === 'bass' ? stringTextMoves(stage.text, part, semitones) : []));
  const all = [...keyEdits(stage, by), ...noteEdits(stage, by), ...chordEdits(stage, by), ...pins.flatMap((pin) => pin.edits), ...texts];
  const edits = [...new Map(all.map((edit) => [`${edit.span.from} ${edit.span.to}`, edit])).values()].sort(
    (a, b) => a.span.from - b.span.from,
  );
  return { edits: keepingSymbolPlaces(stage.tree, edits), pins: pins.flatMap((pin) => pin.fates) };
}

function keyEdits(stage: PartStage, by: Interval): readonly Edit[] {
  return stage.tree.lines.flatMap(({ at, line }): readonly Edit[] => {
    if (line.kind === 'field') return keyEdit(line.field, at, by);
    return line.kind === 'music'
      ? line.items.flatMap((item: MusicItem) => (item.kind === 'inline' ? keyEdit(item.field, at, by) : []))
      : [];
  });
}

function keyEdit(field: Field, at: number, by: Interval): readonly Edit[] {
  if (field.value.kind !== 'key') return [];
  const span = { from: at + field.textSpan.from, to: at + field.textSpan.to };
  const insert = movedKeyText(field.text, field.value.key, by);
  return insert === field.text ? [] : [{ span, insert }];
}

/** Pitches where they stand: an accidental that is written stays written, none is added that the key and the bar do not ask for. */
function noteEdits(stage: PartStage, by: Interval): readonly Edit[] {
  return stage.score.voices.flatMap((voice) =>
    voice.notes.flatMap((note) =>
      note.heads.flatMap((head) => {
        const there = pitchAt(stage.text, head.from);
        if (there === null) return [];
        const pitch = { letter: there.letter, alter: head.alter, octave: there.octave };
        const moved = movedPitch(pitch, by);
        const respelled = moved.letter !== movedPitch({ ...pitch, alter: 0 }, by).letter;
        const written = there.accidental !== '' || respelled || isUnsaid(moved, voice.bars[note.bar]?.key ?? stage.score.key);
        const sign = written ? (accidentalFor(moved.alter) ?? '') : '';
        return [{ span: { from: head.from, to: there.to }, insert: sign + pitchText(moved.letter, moved.octave) }];
      }),
    ),
  );
}

/** Whether a key that has no tonic, and so stays as it is, alters the moved letter otherwise than is meant. */
const isUnsaid = ({ letter, alter }: SpelledPitch, key: KeyValue): boolean =>
  key.tonic === null && signatureOf(key)[letterIndex(letter)] !== alter;

function chordEdits(stage: PartStage, by: Interval): readonly Edit[] {
  const marks = stage.score.voices.flatMap((voice) => voice.notes.flatMap((note) => note.marks));
  return marks.flatMap((mark) => {
    const name = chordOf(mark);
    if (name === null || /^sul /.test(name)) return [];
    const written = stage.text.slice(mark.from, mark.to);
    const insert = written.replace(name, () => movedChordText(name, by));
    const plain = written === `"${name}"` || written === `"${suggestionText(name)}"`;
    return plain && insert !== written ? [{ span: { from: mark.from, to: mark.to }, insert }] : [];
  });
}

/** The chord that a mark names, written or suggested. */
function chordOf(mark: Mark): string | null {
  if (mark.kind === 'chord-symbol') return mark.text;
  return mark.kind === 'annotation' && mark.text.startsWith('?') ? mark.text.slice(1) : null;
}

interface PinMove {
  readonly edits: readonly Edit[];
  readonly fates: readonly PinFate[];
}

function pinMoves(part: BassPart, semitones: number): readonly PinMove[] {
  return part.notes.flatMap((note) => note.pins.map((pin, head) => pinMove(part, note, pin, head, semitones)));
}

/** The string whose open pitch lies the interval away: there the same stop and finger sound the new pitch. */
function stringAcross(part: BassPart, name: string, semitones: number): string | null {
  const { strings } = part.setup.tuning;
  const open = strings.find((string) => string.name === name)?.open;
  return strings.find((string) => string.open === (open ?? Number.NaN) + semitones)?.name ?? null;
}

function pinMove(part: BassPart, note: PartNote, pin: HeadPin, head: number, semitones: number): PinMove {
  const { finger, string, harmonic } = pin;
  const pitch = note.sounding[head]! + semitones;
  const across = string === null ? null : stringAcross(part, string.value, semitones);
  if (across !== null) return movedString(note, pin, string!, across);
  if (string !== null && !canStop(part, string.value, pitch, finger?.value === '0'))
    return lost(note, pin, `the ${string.value} string has no place for the new pitch`);
  if (string === null && finger?.value === '0' && !part.setup.tuning.strings.some((s) => s.open === pitch))
    return lost(note, pin, 'no open string has the new pitch');
  if (string !== null && finger?.value !== '0' && finger !== null && isOpen(part, string.value, pitch))
    return lost(note, pin, 'the new pitch is the open string');
  if (harmonic !== null) return lost(note, pin, 'the new pitch has another node');
  return { edits: [], fates: [] };
}

function canStop(part: BassPart, name: string, pitch: number, open: boolean): boolean {
  const string = part.setup.tuning.strings.find((s) => s.name === name);
  if (string === undefined) return false;
  const stop = pitch - string.open;
  return open ? stop === 0 : stop >= string.lowestStop && stop <= part.setup.top;
}

const isOpen = (part: BassPart, name: string, pitch: number): boolean =>
  part.setup.tuning.strings.some((string) => string.name === name && string.open === pitch);

function movedString(note: PartNote, pin: HeadPin, string: NonNullable<HeadPin['string']>, across: string): PinMove {
  if (string.carried) return { edits: [], fates: [] };
  const message = `${string.value} string becomes ${across} string, the same stop${pin.finger === null ? '' : ' and finger'}.`;
  return { edits: [{ span: string.span, insert: stringText(across) }], fates: [{ ...string.span, note: note.id, fate: 'moved', message }] };
}

function lost(note: PartNote, pin: HeadPin, why: string): PinMove {
  const own = [pin.finger, pin.string?.carried === true ? null : pin.string, pin.harmonic].filter((one) => one !== null);
  const spans = [...new Map(own.map((one) => [one.span.from, one.span])).values()];
  const what = [
    pin.finger === null ? '' : fingerText(pin.finger.value),
    pin.string === null ? '' : stringText(pin.string.value),
    pin.harmonic === null ? '' : '!open!',
  ].join('');
  const first = spans[0] ?? note.note;
  return {
    edits: spans.map((span) => ({ span, insert: '' })),
    fates: [{ from: first.from, to: first.to, note: note.id, fate: 'lost', message: `${what} is lost: ${why}.` }],
  };
}

/** String texts (`"^sul G"`) move with their notes where a string lies across. */
function stringTextMoves(text: string, part: BassPart, semitones: number): readonly Edit[] {
  const spans = new Map(
    part.notes.flatMap((note) =>
      note.pins.flatMap((pin) => (pin.string?.carried === true ? [[pin.string.span.from, pin.string] as const] : [])),
    ),
  );
  return [...spans.values()].flatMap((string) => {
    const across = stringAcross(part, string.value, semitones);
    const written = text.slice(string.span.from, string.span.to);
    return across === null ? [] : [{ span: string.span, insert: written.replace(/(sul )[A-Ga-g][#b]?\d?/, `$1${across}`) }];
  });
}
