// What a repeat's join costs: from a state of its last note to where the section lands again.
import { type Chain, passedBefore } from './chain.ts';
import { handCount, noHand } from './hands.ts';
import type { State } from './layers.ts';
import { freeMost, timingAfter } from './limits/time.ts';
import { never, wayOf } from './rules.ts';
import { stepCost } from './step.ts';
import type { Jump } from './types.ts';

/** Where a section lands when it is played again: the state of its first stopped note, `note`, after open notes from the section's first on. */
export interface Landing {
  readonly note: number;
  readonly state: number;
}

/** The open notes of the section's start keep the hand of where the join comes from, so the move is paid to the first stopped note, in all the time there is. */
export function closureCost(chain: Chain, { from, to, gap }: Jump, source: State, landing: Landing): number {
  const { model, task } = chain;
  const target = chain.layer(landing.note).states[landing.state]!;
  const opens = landing.note - to;
  const first = opens === 0 ? target : openAgain(chain.layer(to).states, source);
  if (first === undefined) return never;
  const articulation = task.notes[to]!.articulation;
  const way = wayOf(articulation);
  const arriving =
    first.free > 0 ? { ...first, hand: source.hand, free: source.hand === noHand ? 1 : Math.min(freeMost, source.free + 1) } : first;
  const quick = model.timed === 'judged' && gap < model.player.limits.hop && !model.lifted.has('hop');
  const step = stepCost(model, source, arriving, way, quick);
  if (step >= never) return never;
  const move = target.free > 0 || source.hand === noHand ? 0 : moveInto(chain, { from, to, gap }, source, landing);
  return move >= never ? never : step - first.cost + move;
}

/** The open grip that the section's first note takes; there is one for each open string, all of one cost. */
function openAgain(states: readonly State[], source: State): State | undefined {
  const open = states.filter((state) => state.free > 0);
  return open.find((state) => state.places.every((place, i) => place.string === source.places[i]?.string)) ?? open[0];
}

function moveInto(chain: Chain, { from, to, gap }: Jump, source: State, landing: Landing): number {
  const { task, links, model } = chain;
  const within = Array.from({ length: landing.note - to }, (_, i) => landing.note - i);
  const passed = [
    ...within.map((note) => ({ step: links.step[note]!, duration: task.notes[note - 1]!.duration })),
    { step: gap, duration: task.notes[from]!.duration },
    ...passedBefore(task, links, from),
  ];
  const free = Math.min(freeMost, source.free + within.length);
  const target = chain.layer(landing.note).states[landing.state]!;
  return model.movesFor(timingAfter(model.player.limits, passed).available[free]!)[source.hand * handCount + target.hand]!;
}
