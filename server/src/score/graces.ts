// Grace notes as they sound: on the beat, quickly, in time taken from the note they ornament.
import { LONGEST_GRACE, UNNAMED_TEMPO } from './conventions.ts';
import { add, compare, fraction, mul, sub, toNumber, ZERO } from './fraction.ts';
import type { Fraction, Played, PlayedEvent, PlayedVoice, Score, ScoreNote, Voice } from './types.ts';

const unnamedTempo = { beat: fraction(1, 4), bpm: UNNAMED_TEMPO };
/** Graces last whole parts of this many to a whole note, which are ticks of our MIDI files, so that denominators stay small. */
const parts = 13_440;

/**
 * The voices of a tune played out, with the graces that `playOut` leaves out, for a player's ears. The standard (4.12) gives graces no time
 * of their own and leaves their length to the program, which may be a fixed time. They begin where their note would have begun, which is
 * shortened by them and no other note is (*common practice*: C. P. E. Bach, Versuch I, 1753, ch. 2; Grove, Dictionary of Music, vol. 1,
 * 1879, "Appoggiatura"). Each lasts `LONGEST_GRACE` at the tempo written there, all together at most half of their note. A grace of no note,
 * or of one that a tie only goes on with, does not sound.
 */
export const withGraces = (score: Score, played: Played): readonly PlayedVoice[] =>
  played.voices.map((sounding) => {
    const voice = score.voices.find(({ id }) => id === sounding.voice);
    if (voice === undefined || voice.notes.every(({ graceOf }) => graceOf === null)) return sounding;
    return { ...sounding, events: ornamented(sounding.events, ornamentsOf(voice), played.tempos) };
  });

interface Ornament {
  readonly graces: readonly ScoreNote[];
  /** The shortest duration of its note's heads. */
  readonly room: Fraction;
}

function ornamentsOf(voice: Voice): ReadonlyMap<number, Ornament> {
  const found = new Map<number, ScoreNote[]>();
  for (const note of voice.notes) if (note.graceOf !== null) found.set(note.graceOf, [...(found.get(note.graceOf) ?? []), note]);
  return new Map(
    voice.notes.flatMap((note) => {
      const graces = found.get(note.id);
      const room = note.heads.map(({ duration }) => duration).reduce((a, b) => (compare(a, b) < 0 ? a : b), note.duration);
      return graces === undefined ? [] : [[note.id, { graces, room }] as const];
    }),
  );
}

function ornamented(events: readonly PlayedEvent[], ornaments: ReadonlyMap<number, Ornament>, tempos: Played['tempos']): PlayedEvent[] {
  const out: PlayedEvent[] = [];
  let before: PlayedEvent | null = null;
  for (const event of events) {
    const ornament = ornaments.get(event.note);
    if (ornament === undefined) out.push(event);
    else {
      const each = graceLength(ornament, event.onset, tempos);
      const member = before?.note === event.note && compare(before.onset, event.onset) === 0;
      if (!member) out.push(...graceEvents(ornament.graces, event.onset, each));
      const taken = mul(each, fraction(ornament.graces.length, 1));
      out.push({ ...event, onset: add(event.onset, taken), duration: sub(event.duration, taken) });
    }
    before = event;
  }
  return out;
}

function graceEvents(graces: readonly ScoreNote[], from: Fraction, duration: Fraction): readonly PlayedEvent[] {
  return graces.flatMap((grace, i) => {
    const onset = add(from, mul(duration, fraction(i, 1)));
    return grace.heads.map((head, index) => ({ note: grace.id, head: index, onset, duration, midi: head.midi }));
  });
}

/** What one of a note's graces lasts at a place. */
function graceLength({ graces, room }: Ornament, at: Fraction, tempos: Played['tempos']): Fraction {
  const { beat, bpm } = tempos.findLast(({ onset }) => compare(onset, at) <= 0) ?? tempos[0] ?? unnamedTempo;
  const longest = Math.max(1, Math.floor((LONGEST_GRACE / 60_000) * bpm * toNumber(beat) * parts));
  const half = mul(room, fraction(1, 2 * graces.length));
  const fixed = fraction(longest, parts);
  const least = compare(fixed, half) < 0 ? fixed : half;
  return compare(least, ZERO) > 0 ? least : ZERO;
}
