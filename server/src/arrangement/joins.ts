// How repeats, endings and part order join the attacks of a part: jumps that are not from a note to the next.
import { add, compare, sub } from '../score/fraction.ts';
import { playOut } from '../score/index.ts';
import type { Fraction, Score, Voice } from '../score/types.ts';
import type { BassPart, PartNote } from './types.ts';

type Joins = Pick<BassPart, 'jumps' | 'breaks'>;

/** Jumps between attacks as the bars are played, and the attacks that are never reached from the one before. */
export function joinsOf(score: Score, voice: Voice, notes: readonly PartNote[]): Joins {
  const order = playOut(score).voices.find((v) => v.voice === voice.id)?.order ?? [];
  const byBar = firstAndLast(notes);
  const jumps = new Map<string, Joins['jumps'][number]>();
  const reached = new Set<number>();
  let before: { readonly index: number; readonly onset: Fraction } | null = null;
  for (const { bar, onset } of order) {
    const here = byBar.get(bar);
    if (here === undefined) continue;
    const soundsAt = (index: number): Fraction => add(onset, sub(notes[index]!.onset, voice.bars[bar]!.onset));
    if (before !== null) {
      const gap = sub(soundsAt(here.first), before.onset);
      const next = here.first === before.index + 1;
      if (next && compare(gap, sub(notes[here.first]!.onset, notes[before.index]!.onset)) === 0) reached.add(here.first);
      else jumps.set(`${before.index} ${here.first}`, { from: before.index, to: here.first, gap });
    }
    before = { index: here.last, onset: soundsAt(here.last) };
  }
  return { jumps: [...jumps.values()], breaks: breaksOf(notes, byBar, order, reached) };
}

function firstAndLast(notes: readonly PartNote[]): ReadonlyMap<number, { readonly first: number; readonly last: number }> {
  const byBar = new Map<number, { first: number; last: number }>();
  notes.forEach((note, i) => {
    const range = byBar.get(note.note.bar);
    if (range === undefined) byBar.set(note.note.bar, { first: i, last: i });
    else range.last = i;
  });
  return byBar;
}

/** First attacks of bars that are played, but never straight after the attack written before them. */
function breaksOf(
  notes: readonly PartNote[],
  byBar: ReadonlyMap<number, { readonly first: number }>,
  order: readonly { readonly bar: number }[],
  reached: ReadonlySet<number>,
): readonly number[] {
  const sounding = new Set(order.map((o) => o.bar));
  return [...byBar.values()]
    .map((range) => range.first)
    .filter((first) => first > 0 && !reached.has(first) && sounding.has(notes[first]!.note.bar) && sounding.has(notes[first - 1]!.note.bar))
    .sort((a, b) => a - b);
}
