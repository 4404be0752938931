// What a repeat's join costs: from a state of its last note to where the section lands again.
import { type Chain, passedBefore } from './chain.ts';
import { handCount, noHand } from './hands.ts';
import type { State } from './layers.ts';
import { freeMost, type Timing, timingAfter } from './limits/time.ts';
import { never, wayOf } from './rules.ts';
import { stepCost } from './step.ts';
import type { Jump } from './types.ts';

/** Where a section lands when it is played again: the state of its first stopped note, `note`, after open notes from the section's first on. */
export interface Landing {
  readonly note: number;
  readonly state: number;
}

/** Cost of a join from a state of its last note to a landing; `never` if it cannot be. */
export type ClosureCost = (source: State, landing: Landing) => number;

/** The open notes of the section's start keep the hand of where the join comes from, so the move is paid to the first stopped note, in all the time there is. */
export function closureCosts(chain: Chain, jump: Jump): ClosureCost {
  const { model, task } = chain;
  const { states } = chain.layer(jump.to);
  const way = wayOf(task.notes[jump.to]!.articulation);
  const quick = model.timed === 'judged' && jump.gap < model.player.limits.hop && !model.lifted.has('hop');
  const timings = new Map<number, Timing>();
  return (source, landing) => {
    const target = chain.layer(landing.note).states[landing.state]!;
    const opens = landing.note - jump.to;
    const first = opens === 0 ? target : openAgain(states, source);
    if (first === undefined) return never;
    const arriving =
      first.free > 0 ? { ...first, hand: source.hand, free: source.hand === noHand ? 1 : Math.min(freeMost, source.free + 1) } : first;
    const step = stepCost(model, source, arriving, way, quick);
    if (step >= never) return never;
    if (target.free > 0 || source.hand === noHand) return step - first.cost;
    const timing = timings.get(landing.note) ?? timingTo(chain, jump, landing.note);
    timings.set(landing.note, timing);
    const free = Math.min(freeMost, source.free + opens);
    const move = model.movesFor(timing.available[free]!)[source.hand * handCount + target.hand]!;
    return move >= never ? never : step - first.cost + move;
  };
}

/** The open grip that the section's first note takes; there is one for each open string, all of one cost. */
function openAgain(states: readonly State[], source: State): State | undefined {
  const open = states.filter((state) => state.free > 0);
  return open.find((state) => state.places.every((place, i) => place.string === source.places[i]?.string)) ?? open[0];
}

/** Times for the move from before a join to the note on which it lands. */
function timingTo({ task, links, model }: Chain, { from, to, gap }: Jump, note: number): Timing {
  const within = Array.from({ length: note - to }, (_, i) => note - i);
  return timingAfter(model.player.limits, [
    ...within.map((inner) => ({ step: links.step[inner]!, duration: task.notes[inner - 1]!.duration })),
    { step: gap, duration: task.notes[from]!.duration },
    ...passedBefore(task, links, from, freeMost),
  ]);
}
