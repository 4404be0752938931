// The order in which bars sound: repeats, endings, part order.
import type { PartOrder } from '../abc/tree/fields.ts';
import { MOST_PLAYED_BARS } from './conventions.ts';
import type { Bar, Voice } from './types.ts';

/** Bars of the voice in the order in which they sound, as indices; at most `MOST_PLAYED_BARS`. */
export function playedOrder(voice: Voice, order: readonly PartOrder[]): readonly number[] {
  const out: number[] = [];
  if (order.length === 0 || voice.parts.length === 0) play(voice.bars, 0, voice.bars.length, 0, out);
  else playParts(voice, order, out);
  return out;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

function playParts(voice: Voice, order: readonly PartOrder[], out: number[]): void {
  const stretches = new Map<string, Stretch>();
  voice.parts.forEach(({ label, bar }, i) => {
    if (!stretches.has(label)) stretches.set(label, { from: bar, to: voice.parts[i + 1]?.bar ?? voice.bars.length });
  });
  play(voice.bars, 0, voice.parts[0]!.bar, 0, out);
  const times = new Map<string, number>();
  for (const label of labelsInOrder(order)) {
    const stretch = stretches.get(label);
    if (!stretch) continue;
    const time = (times.get(label) ?? 0) + 1;
    times.set(label, time);
    play(voice.bars, stretch.from, stretch.to, time, out);
    if (out.length >= MOST_PLAYED_BARS) return;
  }
}

/** Every label that an order names. */
export const labelsIn = (order: readonly PartOrder[]): readonly string[] =>
  order.flatMap((item) => (item.kind === 'part' ? [item.label] : labelsIn(item.items)));

/** The labels of an order one by one, groups repeated; as many as could be played at all. */
export function labelsInOrder(order: readonly PartOrder[]): readonly string[] {
  const out: string[] = [];
  const walk = (items: readonly PartOrder[]): void => {
    for (const item of items) {
      if (out.length >= MOST_PLAYED_BARS) return;
      if (item.kind === 'part') out.push(item.label);
      else for (let n = 0; n < item.times && out.length < MOST_PLAYED_BARS; n++) walk(item.items);
    }
  };
  walk(order);
  return out;
}

/**
 * Plays bars from..to. `time` is which time a part comes, 0 outside parts: where a part has endings for later times than its own
 * repeats give, the time chooses the ending, and the part's repeats are not played again (4.10).
 */
function play(bars: readonly Bar[], from: number, to: number, time: number, out: number[]): void {
  const fixed = time > 0 && endingsOutnumberRepeats(bars, from, to) ? time : null;
  let start = from;
  let pass = fixed ?? 1;
  let at = from;
  while (at < to && out.length < MOST_PLAYED_BARS) {
    const bar = bars[at]!;
    if (bar.startRepeats > 0 && at !== start) {
      start = at;
      pass = fixed ?? 1;
    }
    if (bar.ending.length > 0 && !bar.ending.includes(pass)) {
      at = afterEnding(bars, at, to);
      continue;
    }
    out.push(at);
    if (fixed === null && bar.endRepeats > 0) {
      if (repeats(bars, start, at, to, pass)) {
        pass++;
        at = start;
        continue;
      }
      start = at + 1;
      pass = 1;
    } else if (fixed === null && bar.sectionEnd && (bars[start]!.startRepeats === 0 || pass > 1)) {
      // A section has ended with no repeat open, or with its last ending: a later repeat goes back to here.
      start = at + 1;
      pass = 1;
    }
    at++;
  }
}

/** Whether the passage from `start` to the repeat sign after `at` is played once more. */
function repeats(bars: readonly Bar[], start: number, at: number, to: number, pass: number): boolean {
  const bar = bars[at]!;
  if (bar.ending.includes(pass + 1) || laterEnding(bars, at, to, pass + 1)) return true;
  // A first ending without a second is left out the second time.
  if (bar.ending.length > 0) return pass === 1 && bar.ending.includes(1);
  return pass <= Math.max(bar.endRepeats, bars[start]!.startRepeats);
}

/** Whether an ending of this number follows the one that `at` stands in. */
function laterEnding(bars: readonly Bar[], at: number, to: number, number: number): boolean {
  for (let i = at + 1; i < to && bars[i]!.ending.length > 0; i++) {
    if (bars[i]!.ending.includes(number)) return true;
    if (bars[i]!.startRepeats > 0) return false;
  }
  return false;
}

/** The first bar after those of the same ending. */
function afterEnding(bars: readonly Bar[], at: number, to: number): number {
  const { ending } = bars[at]!;
  let next = at + 1;
  while (next < to && bars[next]!.ending === ending) next++;
  return next;
}

function endingsOutnumberRepeats(bars: readonly Bar[], from: number, to: number): boolean {
  let highest = 0;
  let endings = 0;
  for (let i = from; i < to; i++) {
    const { ending } = bars[i]!;
    if (ending.length > 0 && ending !== bars[i - 1]?.ending) endings++;
    for (const number of ending) highest = Math.max(highest, number);
  }
  return highest > endings;
}
