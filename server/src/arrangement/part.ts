// From a voice of the score to a bass part: attacks with sounding pitches, articulations, pins, and how repeats join them.

import type { Articulation } from '../fingering/types.ts';
import { add, sub } from '../score/fraction.ts';
import { beatOf } from '../score/index.ts';
import type { Fraction, Mark, NoteId, Score, ScoreNote, Tempo, Voice, VoiceId } from '../score/types.ts';
import { type Declarations, readDeclarations } from './declarations.ts';
import { joinsOf } from './joins.ts';
import { noPin, type Pins, readPins } from './pins.ts';
import { clefAt, soundingPitch } from './sounding.ts';
import type { BassPart, FileConfig, Melody, PartNote, PartTempo } from './types.ts';

/** Reads a voice as a bass part, or as a melody if nothing says that it is one (`part=`, a low or high version, a bass or tenor clef). */
export function readPart(score: Score, voiceId: VoiceId, config: FileConfig): BassPart | Melody {
  const voice = score.voices.find((v) => v.id === voiceId);
  if (voice === undefined) return { kind: 'melody', voice: voiceId, version: null, problems: [] };
  const declared = readDeclarations(voice, score.voices[0]?.id === voiceId ? 'all' : 'own-scope');
  if (!isBass(voice, declared)) return { kind: 'melody', voice: voiceId, version: declared.version, problems: declared.problems };
  const setup = { ...config.setup, ...declared.setup };
  const pins = readPins(voice, setup.tuning, (note, head) => soundingPitch(head, clefAt(voice, note.onset)));
  const notes = attacks(voice, pins, declared);
  const tempos = partTempos(score.tempos);
  return {
    kind: 'bass',
    voice: voiceId,
    setup,
    notes,
    beat: beatOf(score.meter),
    tempo: tempos[0] ?? null,
    tempos,
    ...joinsOf(score, voice, notes),
    version: declared.version,
    allow: declared.allow,
    problems: [...declared.problems, ...pins.problems],
  };
}

function isBass(voice: Voice, declared: Declarations): boolean {
  if (declared.part !== null) return declared.part === 'bass';
  if (declared.version !== null && !declared.version.version.startsWith('source')) return true;
  return voice.clef.shape === 'bass' || voice.clef.shape === 'tenor';
}

function partTempos(tempos: readonly Tempo[]): readonly PartTempo[] {
  return tempos.flatMap((t) =>
    t.beat !== null && t.bpm !== null && t.bpm > 0 && t.beat.num > 0
      ? { onset: t.onset, beat: t.beat, bpm: t.bpm, from: { from: t.from, to: t.to } }
      : [],
  );
}

/** The attacks of the main layer: ties merged into the note that begins, graces as notes of their own. */
function attacks(voice: Voice, pins: Pins, declared: Declarations): readonly PartNote[] {
  const notes: PartNote[] = [];
  const tiedFrom = new Map<NoteId, number>();
  const indexOf = new Map<NoteId, number>();
  for (const note of voice.notes.filter((n) => n.layer === 0)) {
    const from = tiedFrom.get(note.id);
    const fresh = note.heads.filter((head) => !head.tied);
    const continued = from !== undefined && fresh.length === 0;
    const index = continued ? from : notes.length;
    if (continued) notes[from] = lengthened(notes[from]!, note);
    else notes.push(attack(voice, note, pins, from));
    indexOf.set(note.id, index);
    for (const head of note.heads) if (head.tieTo !== null) tiedFrom.set(head.tieTo.note, index);
  }
  const joined = slurred(voice, indexOf);
  return withHandStops(
    notes.map((note, i) => ({ ...note, articulation: articulationOf(note, joined.has(i) ? notes[i - 1] : undefined) })),
    declared,
  );
}

const endOf = (note: ScoreNote): Fraction => add(note.onset, note.duration);

function lengthened(note: PartNote, by: ScoreNote): PartNote {
  return { ...note, tied: [...note.tied, by.id], to: by.to, duration: sub(endOf(by), note.onset) };
}

/** One attack; heads tied from the note at index `heldFrom` sound on and are not struck again. */
function attack(voice: Voice, note: ScoreNote, pins: Pins, heldFrom: number | undefined): PartNote {
  const fresh = note.heads.filter((head) => !head.tied);
  const heads = fresh.length > 0 ? fresh : note.heads;
  const clef = clefAt(voice, note.onset);
  const given = pins.byNote.get(note.id) ?? [];
  return {
    id: note.id,
    tied: [],
    note,
    to: note.to,
    onset: note.onset,
    duration: note.duration,
    sounding: heads.map((head) => soundingPitch(head, clef)),
    articulation: 'pluck',
    pins: heads.map((_, i) => given[i] ?? noPin),
    held: heldFrom !== undefined && fresh.length < note.heads.length ? [heldFrom] : [],
    handStop: null,
  };
}

/** Indices of attacks that a slur joins to the attack before. Dotted slurs are phrases and join nothing. */
function slurred(voice: Voice, indexOf: ReadonlyMap<NoteId, number>): ReadonlySet<number> {
  const joined = new Set<number>();
  for (const slur of voice.slurs) {
    const first = indexOf.get(slur.first);
    const last = indexOf.get(slur.last);
    if (slur.dotted || first === undefined || last === undefined) continue;
    for (let i = first + 1; i <= last; i++) joined.add(i);
  }
  return joined;
}

/** Decorations at whose note a slide arrives (the standard's `slide`; the end of a glissando pair is read alike). */
const slideMarks = ['slide', 'glissando)', '~)', '-)'];
const leftHandMarks = ['plus', '+'];
const deadMarks = ['dead', 'ghost'];

const hasMark = (marks: readonly Mark[], names: readonly string[]): boolean =>
  marks.some((mark) => mark.kind === 'decoration' && names.includes(mark.name));

/** How an attack begins; `before` is the note it is slurred from. */
function articulationOf(note: PartNote, before: PartNote | undefined): Articulation {
  const marks = [...note.note.marks, ...note.note.heads.flatMap((head) => head.marks)];
  const slide = hasMark(marks, slideMarks);
  if (before !== undefined) {
    if (slide) return 'glide';
    return (note.sounding[0] ?? 0) < (before.sounding[0] ?? 0) ? 'pull' : 'hammer';
  }
  if (slide) return 'scoop';
  if (hasMark(marks, leftHandMarks)) return 'left-hand';
  return hasMark(marks, deadMarks) ? 'dead' : 'pluck';
}

function withHandStops(notes: readonly PartNote[], declared: Declarations): readonly PartNote[] {
  const stops = new Map<number, number>();
  for (const { before, stop } of declared.handStops) {
    const index = notes.findIndex((note) => note.id >= before);
    if (index >= 0) stops.set(index, stop);
  }
  return stops.size === 0 ? notes : notes.map((note, i) => ({ ...note, handStop: stops.get(i) ?? null }));
}
