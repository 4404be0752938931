// Why a single note has no place at all: range, board, pins, nodes, frames or reach.
import { nodesFor } from '../bass/index.ts';
import type { Player } from '../bass/types.ts';
import type { Weights } from './cost/weights.ts';
import { gripsFor } from './grips.ts';
import { nothingLifted } from './limits/lifted.ts';
import type { LimitCode, TaskNote } from './types.ts';

/** The limit, and the figures where there are any. */
export interface Blame {
  readonly code: LimitCode;
  readonly needed: number;
  readonly available: number;
  readonly unit: 'mm' | 'ms' | 'semitones' | 'none';
}

/** The limit that leaves a note without a place, or null if it has one. */
export function whyUnplaceable(player: Player, weights: Weights, note: TaskNote): Blame | null {
  const rules = { player, weights, lifted: nothingLifted };
  if (gripsFor(rules, note).length > 0) return null;
  return rangeBlame(player, note) ?? pinBlame(player, weights, note) ?? blame('reach.too-wide');
}

function blame(code: LimitCode): Blame {
  return { code, needed: 0, available: 0, unit: 'none' };
}

function rangeBlame({ setup }: Player, note: TaskNote): Blame | null {
  const { strings } = setup.tuning;
  const lowest = Math.min(...strings.map((string) => string.open + string.lowestStop));
  const highest = Math.max(...strings.map((string) => string.open)) + setup.top;
  const plain = note.pitches.filter((_, i) => !note.pins[i]?.harmonic);
  const low = Math.min(...note.pitches);
  const high = Math.max(...plain);
  if (low < lowest) return { code: 'range.too-low', needed: lowest - low, available: 0, unit: 'semitones' };
  if (plain.length > 0 && high > highest) return { code: 'range.too-high', needed: high - highest, available: 0, unit: 'semitones' };
  return null;
}

function pinBlame(player: Player, weights: Weights, note: TaskNote): Blame | null {
  const rules = { player, weights, lifted: nothingLifted };
  for (const [i, pitch] of note.pitches.entries()) {
    const pin = note.pins[i]!;
    const alone = { ...note, pitches: [pitch], pins: [pin] };
    if (gripsFor(rules, alone).length > 0) continue;
    if (pin.harmonic && !hasNode(player, pitch, pin.string)) return blame('harmonic.no-node');
    if (note.articulation === 'scoop' && gripsFor(rules, { ...alone, articulation: 'pluck' }).length > 0) return blame('slide.open-string');
    const fingerFree = gripsFor(rules, { ...alone, pins: [{ ...pin, finger: null }] });
    if (pin.string !== null && fingerFree.length === 0) return offString(player, pitch, pin.string);
    if (pin.finger === 'T' && fingerFree.some((grip) => grip.places[0]!.finger !== '0')) return blame('thumb.too-low');
    return blame(
      pin.finger === '0' || fingerFree.some((grip) => grip.places[0]!.finger === '0') ? 'pin.contradiction' : 'finger.not-in-frame',
    );
  }
  return null;
}

function hasNode({ setup }: Player, pitch: number, string: number | null): boolean {
  return setup.tuning.strings.some((spec, i) => (string === null || string === i) && nodesFor(pitch - spec.open, setup.top).length > 0);
}

/** The pitch does not lie on the pinned string: below it a contradiction, above it off the board. */
function offString({ setup }: Player, pitch: number, string: number): Blame {
  const stop = pitch - setup.tuning.strings[string]!.open;
  return stop > setup.top ? { code: 'range.off-board', needed: stop, available: setup.top, unit: 'semitones' } : blame('pin.contradiction');
}
