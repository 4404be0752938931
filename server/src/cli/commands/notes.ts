// `bullfiddle notes`: what the text says, note by note, a line of JSON a tune.
import { add, toText, ZERO } from '../../score/fraction.ts';
import { playOut, readScore } from '../../score/index.ts';
import type { Fraction, Head, NoteId, Played, Score, ScoreNote, Voice } from '../../score/types.ts';
import type { Span } from '../../text/span.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import type { Command } from '../command.ts';
import { usageError } from '../run.ts';
import { bookOf, readSources, type Source } from '../sources.ts';

const options = { ...inputOptions, played: { kind: 'flag' } } as const;

export const notes: Command = {
  name: 'notes',
  summary: 'Print the notes of each tune as JSON: place in the text, onset, duration, pitch.',
  usage: `bullfiddle notes FILE... [--played] [--stdin-name NAME]

  --played           play out repeats, endings and the order of parts; without it, as written
  --stdin-name NAME  what to call standard input (-)`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(notes, read.message, io);
    if (read.files.length === 0) return usageError(notes, 'name a tune file or a folder.', io);
    const { sources, failed } = await readSources(read.files, io, read.values['stdin-name']);
    for (const source of sources)
      for (const line of linesOf(source, read.values.played ? playedNotes : writtenNotes)) io.out(`${JSON.stringify(line)}\n`);
    return failed ? 2 : 0;
  },
};

/** A note of the output; its place is relative to the tune. */
interface NoteOut extends Span {
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly midi: readonly number[];
  readonly tied: boolean;
  readonly grace: boolean;
}

type Order = (score: Score, voice: number) => readonly NoteOut[];

function linesOf(source: Source, order: Order): readonly object[] {
  const book = bookOf(source);
  return book.tunes.map(({ at, tree }) => tuneLine(source.name, at, readScore(book.header, tree), order));
}

function tuneLine(file: string, at: number, score: Score, order: Order): object {
  return {
    file,
    number: score.number,
    title: score.title,
    key: score.keyText,
    meter: score.meterText,
    voices: score.voices.map((voice, i) => ({
      id: voice.id,
      clef: clefText(voice),
      notes: order(score, i).map((note) => noteLine(note, at)),
    })),
    errors: score.errors.map(({ code, message, span }) => ({ code, message, from: span.from + at, to: span.to + at })),
  };
}

function noteLine(note: NoteOut, at: number): object {
  const { onset, duration, midi, tied, grace } = note;
  return { from: note.from + at, to: note.to + at, onset: toText(onset), duration: toText(duration), midi, tied, grace };
}

function clefText({ clef }: Voice): string {
  return `${clef.shape}${clef.line ?? ''}${clef.octave < 0 ? '-8' : clef.octave > 0 ? '+8' : ''}`;
}

/** Notes in the order of the text, ties merged into the first. */
function writtenNotes(score: Score, index: number): readonly NoteOut[] {
  const voice = score.voices[index]!;
  const byId = new Map(voice.notes.map((note) => [note.id, note]));
  return voice.notes.flatMap((note) => {
    const sounding = note.heads.filter((head) => !head.tied).map((head) => ({ midi: head.midi, ...held(byId, note, head) }));
    return grouped(sounding).map((group) => ({ ...group, from: note.from, onset: note.onset, grace: note.kind === 'grace' }));
  });
}

/** How long a head sounds, and where the last note tied to it ends. */
function held(byId: ReadonlyMap<number, ScoreNote>, note: ScoreNote, head: Head): { duration: Fraction; to: number; tied: boolean } {
  let duration = head.duration;
  let to = note.to;
  for (let next = head.tieTo; next; ) {
    const later = byId.get(next.note)!;
    const tied = later.heads[next.head]!;
    duration = add(duration, tied.duration);
    to = later.to;
    next = tied.tieTo;
  }
  return { duration, to, tied: head.tieTo !== null };
}

interface Sounding {
  readonly midi: number;
  readonly duration: Fraction;
  readonly to: number;
  readonly tied: boolean;
}

/** Heads of one note that sound equally long are one note of the output; others stand apart. */
function grouped(heads: readonly Sounding[]): readonly { midi: number[]; duration: Fraction; to: number; tied: boolean }[] {
  const groups = new Map<string, { midi: number[]; duration: Fraction; to: number; tied: boolean }>();
  for (const { midi, duration, to, tied } of heads) {
    const key = `${toText(duration)} ${to}`;
    const group = groups.get(key);
    if (group) group.midi.push(midi);
    else groups.set(key, { midi: [midi], duration, to, tied });
  }
  return [...groups.values()];
}

/** Notes in the order in which they sound. Graces, whose time is not defined, stand before their note. */
function playedNotes(score: Score, index: number): readonly NoteOut[] {
  const voice = score.voices[index]!;
  const byId = new Map(voice.notes.map((note) => [note.id, note]));
  const graces = gracesByNote(voice);
  const out: NoteOut[] = [];
  for (const group of chordsOf(playOut(score), index, byId)) {
    const note = byId.get(group.note)!;
    for (const grace of graces.get(note.id) ?? []) out.push(graceOut(grace, group.onset));
    for (const sounding of grouped(group.heads)) out.push({ ...sounding, from: note.from, onset: group.onset, grace: false });
  }
  return out;
}

function gracesByNote(voice: Voice): ReadonlyMap<NoteId, readonly ScoreNote[]> {
  const graces = new Map<NoteId, ScoreNote[]>();
  for (const note of voice.notes) if (note.graceOf !== null) graces.set(note.graceOf, [...(graces.get(note.graceOf) ?? []), note]);
  return graces;
}

const graceOut = (grace: ScoreNote, onset: Fraction): NoteOut => ({
  from: grace.from,
  to: grace.to,
  onset,
  duration: ZERO,
  midi: grace.heads.map((head) => head.midi),
  tied: false,
  grace: true,
});

/** Events of one note at one time, together. */
function chordsOf(
  played: Played,
  index: number,
  byId: ReadonlyMap<NoteId, ScoreNote>,
): readonly { note: NoteId; onset: Fraction; heads: Sounding[] }[] {
  const chords: { note: NoteId; onset: Fraction; heads: Sounding[] }[] = [];
  for (const event of played.voices[index]!.events) {
    const last = chords.at(-1);
    const same = last && last.note === event.note && toText(last.onset) === toText(event.onset);
    const chord = same ? last : { note: event.note, onset: event.onset, heads: [] };
    if (!same) chords.push(chord);
    chord.heads.push({
      midi: event.midi,
      duration: event.duration,
      to: byId.get(event.last ?? event.note)!.to,
      tied: event.last !== undefined,
    });
  }
  return chords;
}
