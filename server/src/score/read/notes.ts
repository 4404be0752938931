// Notes, chords, graces and rests of a voice: when they sound, how long, how high.
import type {
  ChordItem,
  DecorationItem,
  GraceItem,
  MusicItem,
  NoteItem,
  QuotedItem,
  RestItem,
  WrittenLength,
} from '../../abc/tree/items.ts';
import type { Offset } from '../../text/span.ts';
import { FREE_BAR_REST } from '../conventions.ts';
import { add, div, fraction, mul, ZERO } from '../fraction.ts';
import { alterOf, letterIndex, SEMITONES } from '../key.ts';
import { barLength } from '../meter.ts';
import type { Fraction, Mark } from '../types.ts';
import { closeSlur, endTies, openSlur, takeSlurs } from './joins.ts';
import { inRhythm } from './rhythm.ts';
import type { TuneState } from './tune-state.ts';
import type { HeadDraft, NoteDraft, VoiceState } from './voice-state.ts';

/** What no mark stands on; shared, so that most notes need no list of their own. */
const NO_MARKS: readonly Mark[] = [];

// Objects are written out field by field on this path, and alike in shape: copying fields by spread costs a good part of the time.
export function markOf(item: DecorationItem | QuotedItem, at: Offset, source: Mark['source']): Mark {
  const from = at + item.from;
  const to = at + item.to;
  if (item.kind === 'decoration') return { from, to, kind: 'decoration', name: item.name, source };
  if (item.placement === 'chord') return { from, to, kind: 'chord-symbol', text: item.text, source };
  return { from, to, kind: 'annotation', placement: item.placement, text: item.text, source };
}

/** A mark before the next note. */
export function addMark(voice: VoiceState, mark: Mark): void {
  if (voice.marks === null) voice.marks = [mark];
  else voice.marks.push(mark);
}

export function addNote(tune: TuneState, voice: VoiceState, item: NoteItem, at: Offset): void {
  const length = inRhythm(tune, voice, plainLength(voice, item.length));
  const head = makeHead(tune, voice, item, at, length);
  addToVoice(tune, voice, at + item.from, at + item.to, [head], length);
}

/** A chord: its heads' own lengths times the chord's; the first head rules when what follows begins (4.17). */
export function addChord(tune: TuneState, voice: VoiceState, item: ChordItem, at: Offset): void {
  const factor = chordFactor(tune, voice, item);
  const heads: HeadDraft[] = [];
  const slurs: { item: MusicItem; before: number }[] = [];
  let marks: Mark[] = [];
  for (const inner of item.inner) {
    if (inner.kind === 'note') {
      const length = mul(plainLength(voice, inner.length), factor);
      const head = makeHead(tune, voice, inner, at, length);
      head.marks = marks;
      marks = [];
      heads.push(head);
    } else if (inner.kind === 'decoration' || inner.kind === 'quoted') marks.push(markOf(inner, at, 'inline'));
    else if (inner.kind === 'tie' && heads.length > 0) heads.at(-1)!.tieMark = { from: at + inner.from, to: at + inner.to };
    else if (inner.kind === 'slur-open' || inner.kind === 'slur-close') slurs.push({ item: inner, before: heads.length });
  }
  for (const { item: slur } of slurs) if (slur.kind === 'slur-open') openSlur(voice, slur.dotted, at, slur);
  const note = addToVoice(tune, voice, at + item.from, at + item.to, heads, heads[0]!.duration);
  if (heads.some((head) => head.tieMark)) voice.tied[voice.layer] = note;
  for (const { item: slur } of slurs) if (slur.kind === 'slur-close') closeSlur(tune, voice, at, slur);
}

/** What turns the plain length of each head into its duration: the chord's length and the rhythm that the first head is in. */
function chordFactor(tune: TuneState, voice: VoiceState, item: ChordItem): Fraction {
  const first = item.inner.find((inner) => inner.kind === 'note')!;
  const plain = plainLength(voice, first.length);
  const own = fraction(item.length.num, item.length.den);
  return div(inRhythm(tune, voice, mul(plain, own)), plain);
}

/** Graces take no time; they ornament the next note. */
export function addGraces(tune: TuneState, voice: VoiceState, item: GraceItem, at: Offset): void {
  let marks: Mark[] = [];
  for (const inner of item.inner) {
    if (inner.kind === 'note') {
      const head = makeHead(tune, voice, inner, at, ZERO);
      const note = newNote(tune, voice, at + inner.from, at + inner.to, [head], ZERO, 'grace', marks);
      marks = [];
      takeSlurs(voice, note);
      voice.notes.push(note);
      voice.graces.push(note);
    } else if (inner.kind === 'decoration' || inner.kind === 'quoted') marks.push(markOf(inner, at, 'inline'));
    else if (inner.kind === 'slur-open') openSlur(voice, inner.dotted, at, inner);
    else if (inner.kind === 'slur-close') closeSlur(tune, voice, at, inner);
  }
}

export function addRest(tune: TuneState, voice: VoiceState, item: RestItem, at: Offset): void {
  const whole = item.sign === 'Z' || item.sign === 'X';
  const duration = whole ? wholeBars(voice, item.length) : inRhythm(tune, voice, plainLength(voice, item.length));
  const span = { from: at + item.from, to: at + item.to };
  const rest = {
    ...span,
    onset: voice.time,
    duration,
    seen: item.sign === 'z' || item.sign === 'Z',
    bar: voice.bars.length,
    layer: voice.layer,
  };
  if (whole) voice.restBars += item.length.num;
  voice.rests.push(rest);
  voice.time = add(voice.time, duration);
  voice.last = rest;
  voice.tied[voice.layer] = null;
  voice.marks = null;
}

function wholeBars(voice: VoiceState, { num, den }: WrittenLength): Fraction {
  return mul(barLength(voice.meter) ?? fraction(FREE_BAR_REST, 1), fraction(num, den));
}

/** The written length in whole notes, nothing else applied. */
const plainLength = (voice: VoiceState, length: WrittenLength): Fraction => mul(fraction(length.num, length.den), voice.unit);

function makeHead(tune: TuneState, voice: VoiceState, item: NoteItem, at: Offset, duration: Fraction): HeadDraft {
  const index = letterIndex(item.letter);
  const octave = item.octave + (voice.properties.octave ?? 0);
  const alter = alterHere(tune, voice, item, index, octave);
  const written = 12 * (octave + 1) + SEMITONES[index]! + alter;
  return {
    from: at + item.from,
    to: at + item.to,
    letter: item.letter,
    alter,
    octave,
    accidental: item.accidental,
    midi: written + voice.soundShift,
    written,
    duration,
    tieMark: null,
    tieTo: null,
    tied: false,
    marks: NO_MARKS,
  };
}

/** Semitones off the natural: own accidental, else the bar's, else the key's. Own accidentals are remembered for the bar. */
function alterHere(tune: TuneState, voice: VoiceState, item: NoteItem, index: number, octave: number): number {
  const place = tune.accidentalReach === 'octave' ? index + 7 * octave : index;
  if (item.accidental === null)
    return voice.accidentals.size === 0 ? voice.signature[index]! : (voice.accidentals.get(place) ?? voice.signature[index]!);
  const alter = alterOf(item.accidental);
  if (tune.accidentalReach !== 'not') voice.accidentals.set(place, alter);
  return alter;
}

function newNote(
  tune: TuneState,
  voice: VoiceState,
  from: Offset,
  to: Offset,
  heads: HeadDraft[],
  duration: Fraction,
  kind: NoteDraft['kind'],
  marks: readonly Mark[],
): NoteDraft {
  return {
    from,
    to,
    id: tune.nextId++,
    voice: voice.id,
    onset: voice.time,
    duration,
    kind,
    heads,
    marks,
    bar: voice.bars.length,
    layer: voice.layer,
    graceOf: null,
  };
}

function addToVoice(tune: TuneState, voice: VoiceState, from: Offset, to: Offset, heads: HeadDraft[], duration: Fraction): NoteDraft {
  const note = newNote(tune, voice, from, to, heads, duration, 'note', voice.marks ?? NO_MARKS);
  voice.marks = null;
  for (const grace of voice.graces) grace.graceOf = note.id;
  if (voice.graces.length > 0) voice.graces = [];
  const tied = voice.tied[voice.layer];
  if (tied) endTies(voice, tied, note);
  takeSlurs(voice, note);
  voice.notes.push(note);
  voice.time = add(voice.time, duration);
  voice.last = note;
  return note;
}
