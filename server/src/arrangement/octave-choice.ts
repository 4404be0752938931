// Choosing an octave for each phrase of a melody, exactly, in a stated order of what matters.
import type { Melody, Tone } from './melody.ts';

/** Bars of a phrase: octaves never change inside one. Four bars is the common phrase of a fiddle tune. */
const phraseBars = 4;

export interface Phrase {
  /** Index of its part in the melody's sections. */
  readonly section: number;
  readonly bars: readonly number[];
  readonly tones: readonly Tone[];
  /** Phrases of equal parts share a key and so their octave. */
  readonly key: string;
}

/** Bounds in sounding MIDI, and the number of semitones below the source that is usual. */
export interface Register {
  readonly lowest: number;
  readonly highest: number;
  readonly preferred: readonly [number, number];
  readonly usual: number;
}

/** Preferred ranges, sounding: low E1 to D3, high D3 to E4 (a judgement: neck register and thumb register). */
export const registers = {
  low: { preferred: [28, 50], usual: 24 },
  high: { preferred: [50, 64], usual: 12 },
} as const;

/** What an assignment costs, most important first: notes out of range, octave changes inside a part, joins over a fifth that are worse than the source's (see `worseJoin`), notes outside the preferred range, octaves from the usual distance. */
export type Rank = readonly [number, number, number, number, number];

export interface OctaveChoice {
  readonly phrases: readonly Phrase[];
  /** Every best assignment: semitones below the source, one a phrase. The first is the lowest in reading order. */
  readonly best: readonly (readonly number[])[];
  readonly rank: Rank;
  /** Whether the search came to its end; false only for tunes of very many different phrases. */
  readonly exact: boolean;
}

const distances = [12, 24, 36] as const;
/** Assignments looked at before the search gives what it has. */
const mostVisits = 300_000;
/** Equally good assignments kept for the fingering to decide between. */
const mostBest = 16;

/** Splits a melody into phrases of whole bars; a pickup belongs to the phrase it leads to. */
function phrasesOf(melody: Melody): readonly Phrase[] {
  return melody.sections.flatMap((section, index) => {
    const chunks = chunked(section.bars, melody);
    const made = chunks.map((bars) => ({ section: index, bars, tones: melody.tones.filter((tone) => bars.includes(tone.bar)) }));
    const content = made.map((phrase) => contentOf(phrase.tones)).join('/');
    return made.map((phrase, i) => ({ ...phrase, key: `${content}#${i}` }));
  });
}

function chunked(bars: readonly number[], melody: Melody): readonly (readonly number[])[] {
  const first = melody.voice.bars[bars[0]!]!;
  const lead =
    bars.length > 1 && first.nominal !== null && first.duration.num * first.nominal.den < first.nominal.num * first.duration.den ? 1 : 0;
  const count = Math.max(1, Math.round((bars.length - lead) / phraseBars));
  return Array.from({ length: count }, (_, i) => {
    const from = i === 0 ? 0 : lead + i * phraseBars;
    return bars.slice(from, i === count - 1 ? bars.length : lead + (i + 1) * phraseBars);
  });
}

function contentOf(tones: readonly Tone[]): string {
  return tones.map((tone) => `${tone.midi}:${tone.duration.num}/${tone.duration.den}`).join(' ');
}

/** All best assignments of octaves, by search over the distinct phrases with a bound from what each phrase costs alone. */
export function chooseOctaves(melody: Melody, register: Register, shift: number): OctaveChoice {
  const phrases = phrasesOf(melody);
  const keys = [...new Set(phrases.map((phrase) => phrase.key))];
  const alone = keys.map((key) =>
    distances.map((d) =>
      aloneRank(
        phrases.filter((p) => p.key === key),
        register,
        shift,
        d,
      ),
    ),
  );
  const rest = keys.map((_, i) => alone.slice(i).reduce<Rank>((sum, ranks) => sumOf(sum, ranks.reduce(lesser)), zero));
  let bound: Rank | null = null;
  let best: number[][] = [];
  let visits = 0;
  const visit = (chosen: readonly number[], spent: Rank): void => {
    const at = chosen.length;
    if (++visits > mostVisits) return;
    if (bound !== null && order(sumOf(spent, rest[at] ?? zero), bound) > 0) return;
    if (at === keys.length) {
      if (bound === null || order(spent, bound) < 0) best = [];
      bound = spent;
      if (best.length < mostBest) best.push(phrases.map((phrase) => chosen[keys.indexOf(phrase.key)]!));
      return;
    }
    const options = distances.map((d, i) => ({ d, rank: alone[at]![i]! })).sort((a, b) => order(a.rank, b.rank));
    for (const { d, rank } of options) {
      const next = [...chosen, d];
      visit(next, sumOf(sumOf(spent, rank), joinRank(phrases, keys, next)));
    }
  };
  visit([], zero);
  return { phrases, best: best.sort((a, b) => a.join().localeCompare(b.join())), rank: bound ?? zero, exact: visits <= mostVisits };
}

const zero: Rank = [0, 0, 0, 0, 0];
const order = (a: Rank, b: Rank): number => {
  const i = a.findIndex((n, k) => n !== b[k]);
  return i < 0 ? 0 : a[i]! - b[i]!;
};
const lesser = (a: Rank, b: Rank): Rank => (order(b, a) < 0 ? b : a);
const sumOf = (a: Rank, b: Rank): Rank => [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3], a[4] + b[4]];

function aloneRank(phrases: readonly Phrase[], register: Register, shift: number, distance: number): Rank {
  const pitches = phrases.flatMap((phrase) => phrase.tones.map((tone) => tone.midi + shift - distance));
  const outside = (low: number, high: number): number => pitches.filter((p) => p < low || p > high).length;
  const [low, high] = register.preferred;
  const octaves = (Math.abs(distance - register.usual) / 12) * phrases.length;
  return [outside(register.lowest, register.highest), 0, 0, outside(low, high), octaves];
}

/** What the choice made last adds between neighbouring phrases that are now both decided. */
function joinRank(phrases: readonly Phrase[], keys: readonly string[], chosen: readonly number[]): Rank {
  const last = chosen.length - 1;
  let rank = zero;
  for (let i = 1; i < phrases.length; i++) {
    const a = keys.indexOf(phrases[i - 1]!.key);
    const b = keys.indexOf(phrases[i]!.key);
    if (Math.max(a, b) !== last) continue;
    const jump = chosen[a]! - chosen[b]!;
    const changes = jump !== 0 && phrases[i - 1]!.section === phrases[i]!.section ? 1 : 0;
    rank = sumOf(rank, [0, changes, worseJoin(phrases[i - 1]!, phrases[i]!, jump), 0, 0]);
  }
  return rank;
}

/** A fifth in semitones: the widest join that a hand crosses without a leap to prepare, to the next string but one at the most. */
const fifth = 7;

/**
 * 1 if the step between two phrases is over a fifth and wider than the source's.
 * "Over a fifth" is read of the join that is made, not of what it is worse by: a third that becomes a sixth counts, although it
 * is only a fourth worse, since the ear hears the leap; a ninth that the source has too does not, since it is the tune's own.
 */
function worseJoin(before: Phrase, after: Phrase, jump: number): number {
  const from = before.tones.at(-1);
  const to = after.tones[0];
  if (from === undefined || to === undefined) return 0;
  const source = Math.abs(to.midi - from.midi);
  const made = Math.abs(to.midi - from.midi + jump);
  return made > fifth && made > source ? 1 : 0;
}
