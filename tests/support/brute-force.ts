// The engine's rules once more, as plainly as can be: every way to play a short task, one after another. Shares the grips and the cost terms with the engine, none of its layers, tables, passes or eliminations.
import { shiftTime } from '../../server/src/bass/index.ts';
import { moveCost } from '../../server/src/fingering/cost/move.ts';
import { weights } from '../../server/src/fingering/cost/weights.ts';
import { type Grip, gripsFor } from '../../server/src/fingering/grips.ts';
import { handOf, noHand } from '../../server/src/fingering/hands.ts';
import { nothingLifted } from '../../server/src/fingering/limits/lifted.ts';
import { never, type Way } from '../../server/src/fingering/rules.ts';
import { stepCost } from '../../server/src/fingering/step.ts';
import type { Task } from '../../server/src/fingering/types.ts';

/** Order in which the written notes sound, and the time from each to the next, for a task whose jumps are taken once each. */
export interface Sounding {
  readonly order: readonly number[];
  readonly steps: readonly number[];
}

/** What may be spent on the trying. */
export interface Budget {
  /** Ways dearer than this are left out. */
  readonly cost: number;
  /** The most grips tried before it gives up. */
  readonly tries: number;
}

/** Every way there is, however dear. */
export const everything: Budget = { cost: Number.POSITIVE_INFINITY, tries: Number.POSITIVE_INFINITY };

/**
 * Costs of all ways within the budget, cheapest first: by the grips of the written notes as `string/stop/finger` joined, at the cheapest
 * hands. No cost is negative, so what is dearer than the budget before its last note is so at the end. null: the tries ran out.
 */
export function everyWay(task: Task, sounding: Sounding, budget: Budget = everything): ReadonlyMap<string, number> | null {
  const grips = task.notes.map((note) => gripsFor({ player: task.player, weights, lifted: nothingLifted }, note));
  const least = grips.map((own) => own.reduce((sum, { cost }) => Math.min(sum, cost), Number.POSITIVE_INFINITY));
  const toCome = least.map((_, i) => least.slice(i + 1).reduce((sum, cost) => sum + cost, 0));
  const found = new Map<string, number>();
  const chosen: Grip[] = [];
  let tries = 0;
  const choose = (before: Played): boolean => {
    const at = chosen.length;
    if (at === task.notes.length) {
      const key = chosen.map(({ places }) => places.map((p) => `${p.string}/${p.stop}/${p.finger}`).join()).join(' ');
      found.set(key, Math.min(found.get(key) ?? Number.POSITIVE_INFINITY, before.cost));
      return true;
    }
    for (const grip of grips[at]!) {
      if (++tries > budget.tries) return false;
      chosen.push(grip);
      const after = playOn(task, sounding, chosen, { ...before, cost: before.cost + grip.cost });
      const within = after === null || after.cost + toCome[at]! > budget.cost || choose(after);
      chosen.pop();
      if (!within) return false;
    }
    return true;
  };
  return choose({ cost: 0, next: 0, left: null, counted: null }) ? new Map([...found].sort((a, b) => a[1] - b[1])) : null;
}

/** How far a choice has been played: the next in the sounding order, the hand last stopped, and the joins already paid. */
interface Played {
  readonly cost: number;
  readonly next: number;
  readonly left: { readonly at: number; readonly hand: number } | null;
  readonly counted: Counted | null;
}

interface Counted {
  readonly join: string;
  readonly earlier: Counted | null;
}

const isCounted = (counted: Counted | null, join: string): boolean =>
  counted !== null && (counted.join === join || isCounted(counted.earlier, join));

/** Plays on as far as grips are chosen: strings and fingers are paid once each distinct join, moves of the hand once each distinct way in time; null if a limit forbids it. */
function playOn(task: Task, { order, steps }: Sounding, chosen: readonly Grip[], from: Played): Played | null {
  let { cost, next, left, counted } = from;
  for (; next < order.length && order[next]! < chosen.length; next++) {
    const grip = chosen[order[next]!]!;
    if (next > 0) {
      const step = stepOf(task, chosen[order[next - 1]!]!, grip, order[next]!, steps[next - 1]!);
      if (step >= never) return null;
      const join = `${order[next - 1]}>${order[next]}`;
      if (!isCounted(counted, join)) {
        cost += step - grip.cost;
        counted = { join, earlier: counted };
      }
    }
    if (grip.hand === noHand) continue;
    if (left !== null && left.hand !== grip.hand) {
      const available = timeFor(task, { order, steps }, left.at, next);
      const [a, b] = [handOf(left.hand)!, handOf(grip.hand)!];
      if (task.timed === 'judged' && shiftTime(task.player, a, b, task.player.limits.acceleration.limit) > available) return null;
      const join = `move ${order.slice(left.at, next + 1).join('>')}`;
      if (!isCounted(counted, join)) {
        cost += moveCost(task.player, weights, { from: a, to: b, available });
        counted = { join, earlier: counted };
      }
    }
    left = { at: next, hand: grip.hand };
  }
  return { cost, next, left, counted };
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

function wayOf(articulation: string): Way {
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
