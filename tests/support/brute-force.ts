// The engine's rules once more, as plainly as can be: every way to play a short task, one after another. Shares the grips and the cost terms with the engine, none of its layers, tables, passes or eliminations.
import { shiftTime } from '../../server/src/bass/index.ts';
import { moveCost } from '../../server/src/fingering/cost/move.ts';
import { weights } from '../../server/src/fingering/cost/weights.ts';
import { type Grip, gripsFor } from '../../server/src/fingering/grips.ts';
import { handOf, noHand } from '../../server/src/fingering/hands.ts';
import { nothingLifted } from '../../server/src/fingering/limits/lifted.ts';
import { stepCost } from '../../server/src/fingering/step.ts';
import type { Task } from '../../server/src/fingering/types.ts';

/** Order in which the written notes sound, and the time from each to the next, for a task whose jumps are taken once each. */
export interface Sounding {
  readonly order: readonly number[];
  readonly steps: readonly number[];
}

/** Costs of all ways, cheapest first: by the grips of the written notes as `string/stop/finger` joined, at the cheapest hands. */
export function everyWay(task: Task, sounding: Sounding): ReadonlyMap<string, number> {
  const rules = { player: task.player, weights, lifted: nothingLifted };
  const grips = task.notes.map((note) => gripsFor(rules, note));
  const found = new Map<string, number>();
  const choose = (chosen: readonly Grip[]): void => {
    if (chosen.length < task.notes.length) {
      for (const grip of grips[chosen.length]!) if (follows(task, chosen, grip)) choose([...chosen, grip]);
      return;
    }
    const cost = costOf(task, sounding, chosen);
    if (cost === null) return;
    const key = chosen.map(({ places }) => places.map((p) => `${p.string}/${p.stop}/${p.finger}`).join()).join(' ');
    found.set(key, Math.min(found.get(key) ?? Number.POSITIVE_INFINITY, cost));
  };
  choose([]);
  return new Map([...found].sort((a, b) => a[1] - b[1]));
}

/** Whether a grip can come after the one written before it, time apart; a quick test that leaves fewer ways to try. */
function follows(task: Task, chosen: readonly Grip[], grip: Grip): boolean {
  const before = chosen.at(-1);
  if (before === undefined || task.breaks.includes(chosen.length)) return true;
  return stepOf(task, before, grip, chosen.length, Number.POSITIVE_INFINITY) < 1 << 30;
}

const known = new WeakMap<Grip, Map<string, WeakMap<Grip, number>>>();

/** `freshStep`, once for each pair. */
function stepOf(task: Task, before: Grip, grip: Grip, to: number, time: number): number {
  const ways = known.get(before) ?? new Map<string, WeakMap<Grip, number>>();
  known.set(before, ways);
  const way = `${to} ${time < task.player.limits.hop}`;
  const costs = ways.get(way) ?? new WeakMap<Grip, number>();
  ways.set(way, costs);
  const cost = costs.get(grip) ?? freshStep(task, before, grip, to, time);
  costs.set(grip, cost);
  return cost;
}

/** Strings, fingers and the note's own cost of one grip after another. */
function freshStep(task: Task, before: Grip, grip: Grip, to: number, time: number): number {
  const rules = { player: task.player, weights, lifted: nothingLifted, timed: task.timed };
  const quick = task.timed === 'judged' && time < task.player.limits.hop;
  const a = { ...before, grip: 0, free: before.hand === noHand ? 1 : 0 };
  const b = grip.hand === noHand ? { ...grip, grip: 0, free: 1, hand: before.hand } : { ...grip, grip: 0, free: 0 };
  return stepCost(rules, a, b, wayOf(task.notes[to]!.articulation), quick);
}

/** Cost of one choice of grips: notes once each, strings and fingers once each distinct join, moves of the hand once each distinct pair of places in time; null if a limit forbids it. */
function costOf(task: Task, { order, steps }: Sounding, chosen: readonly Grip[]): number | null {
  let total = chosen.reduce((sum, grip) => sum + grip.cost, 0);
  const counted = new Set<string>();
  let left: { at: number; hand: number } | null = null;
  for (let k = 0; k < order.length; k++) {
    const grip = chosen[order[k]!]!;
    const stopped = grip.hand !== noHand;
    if (k > 0) {
      const cost = stepOf(task, chosen[order[k - 1]!]!, grip, order[k]!, steps[k - 1]!);
      if (cost >= 1 << 30) return null;
      if (!counted.has(`${order[k - 1]}>${order[k]}`)) total += cost - grip.cost;
    }
    if (stopped) {
      if (left !== null && left.hand !== grip.hand) {
        const available = timeFor(task, { order, steps }, left.at, k);
        const [from, to] = [handOf(left.hand)!, handOf(grip.hand)!];
        if (task.timed === 'judged' && shiftTime(task.player, from, to, task.player.limits.acceleration.limit) > available) return null;
        const join = order.slice(left.at, k + 1).join('>');
        if (!counted.has(`move ${join}`)) total += moveCost(task.player, weights, { from, to, available });
        counted.add(`move ${join}`);
      }
      left = { at: k, hand: grip.hand };
    }
    if (k > 0) counted.add(`${order[k - 1]}>${order[k]}`);
  }
  return total;
}

function wayOf(articulation: string): 'free' | 'hammer' | 'pull' | 'glide' {
  return articulation === 'hammer' || articulation === 'pull' || articulation === 'glide' ? articulation : 'free';
}

/** All open notes since, at most four, and of the note before those its step less its hold. */
function timeFor(task: Task, { order, steps }: Sounding, at: number, k: number): number {
  const opens = Math.min(4, k - at - 1);
  const open = steps.slice(k - opens, k).reduce((sum, step) => sum + step, 0);
  const before = k - opens - 1;
  const hold = Math.max(task.player.limits.holdLeast, Math.ceil(task.notes[order[before]!]!.duration * task.player.limits.holdShare));
  return open + Math.max(0, steps[before]! - hold);
}
