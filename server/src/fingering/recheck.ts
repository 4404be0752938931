// Rechecks what the search claims, from the rules alone: no layers, tables or passes of the search are used. Slow and short on purpose.
import { ruleCovers, ruleWithinReach, shiftTime } from '../bass/index.ts';
import { boundOf, costAsPlayed, type PlayedNote, type Refutation, stopsInEachPass, stuckFrom } from './recheck-cost.ts';
import type { Fingered, Placing, Task, Unplayable } from './types.ts';

export type { Refutation };

/**
 * Checks that a fingering plays the notes within the limits that can be seen in it: pitches, pins, strings, frames and reach, and in the
 * order they sound slurs, slides and the time for each shift. Then its cost by the terms, and by the certificate that nothing is cheaper:
 * where nothing repeats, the bound is the cost; with repeats it is what the notes cost straight on, and only shown not to be over the
 * cost, where no pass can go by on open strings (the hand may then take its way while they repeat, which straight on it has no time for). For an unplayable task it checks the fingering of the rest, that the windows stand in order, none inside another, and that no
 * hand plays a window while every part of it can be played; what a join alone makes impossible is not gone into. null: nothing to object to.
 */
export function recheck(task: Task, claim: Fingered | Unplayable): Refutation | null {
  const placings = claim.kind === 'fingered' ? claim.placings : claim.rest;
  if (placings.length !== task.notes.length) return { note: 0, why: 'There is not one placing for each note.' };
  for (const [note, placing] of placings.entries()) {
    const why = placing === null ? null : noteFault(task, note, placing);
    if (why !== null) return { note, why };
  }
  // What is left of an unplayable part is fingered row by row, joins apart.
  const played = playedWith(claim.kind === 'fingered' ? task : { ...task, jumps: [] }, placings);
  for (const [at, { note }] of played.entries()) {
    const why = stepFault(task, played, at);
    if (why !== null) return { note, why };
  }
  return claim.kind === 'unplayable' ? windowFault(task, claim) : costFault(task, claim, played);
}

function costFault(task: Task, claim: Fingered, played: readonly PlayedNote[]): Refutation | null {
  const bound = boundOf(task, claim.certificate());
  if (typeof bound !== 'number') return bound;
  if (bound > claim.cost && stopsInEachPass(task))
    return { note: 0, why: `It is said to cost ${claim.cost}, but nothing costs less than ${bound}.` };
  if (!claim.exact) return null;
  const cost = costAsPlayed(task, played);
  if (typeof cost !== 'number') return cost;
  if (cost !== claim.cost) return { note: 0, why: `It is said to cost ${claim.cost}, and costs ${cost}.` };
  return task.jumps.length > 0 || bound === cost ? null : { note: 0, why: `It costs ${cost}, but only ${bound} is shown to be needed.` };
}

/** Each jump is taken once, when its turn comes; a break that no jump leads over begins anew. */
function playedWith({ notes, jumps, breaks }: Task, placings: readonly (Placing | null)[]): readonly PlayedNote[] {
  const played: PlayedNote[] = [];
  let turn = 0;
  for (let note = 0, step: number | null = null; note < notes.length; ) {
    played.push({ note, step, placing: placings[note]! });
    const jump = jumps[turn]?.from === note ? jumps[turn++] : undefined;
    const next = jump?.to ?? note + 1;
    step = jump?.gap ?? (breaks.includes(next) || next >= notes.length ? null : notes[next]!.onset - notes[note]!.onset);
    note = next;
  }
  return played;
}

function noteFault(task: Task, index: number, placing: Placing): string | null {
  const note = task.notes[index]!;
  const { strings } = task.player.setup.tuning;
  if (placing.places.length !== note.pitches.length) return 'A head has no place.';
  if (new Set(placing.places.map(({ string }) => string)).size < placing.places.length) return 'Two heads share a string.';
  for (const [i, place] of placing.places.entries()) {
    const pin = note.pins[i]!;
    if (!place.harmonic && strings[place.string]!.open + place.stop !== note.pitches[i]) return 'The place sounds another pitch.';
    if (pin.string !== null && pin.string !== place.string) return 'The pinned string is not kept.';
    if (pin.finger !== null && pin.finger !== place.finger) return 'The pinned finger is not kept.';
    if (place.finger !== '0' && !inFrame(task, placing, place.stop, place.finger)) return 'The hand does not reach the place.';
  }
  return null;
}

function inFrame({ player }: Task, { hand }: Placing, stop: number, finger: string): boolean {
  if (hand === null) return false;
  const kind = hand.frame === 'thumb' ? 'thumb' : 'neck';
  return player.frames.some(
    (rule) =>
      rule.kind === kind &&
      rule.finger === finger &&
      stop - rule.offset === hand.stop &&
      ruleCovers(rule, stop) &&
      ruleWithinReach(player, rule, stop),
  );
}

function stepFault(task: Task, played: readonly PlayedNote[], at: number): string | null {
  const [before, { note, step, placing }] = [played[at - 1]?.placing, played[at]!];
  if (step === null || !before || placing === null) return null;
  const { articulation } = task.notes[note]!;
  const slurred = articulation === 'hammer' || articulation === 'pull' || articulation === 'glide';
  const joined = placing.places.every((to) => before.places.some((from) => from.string === to.string));
  if (slurred && !joined) return 'The slur leaves its string.';
  if (articulation === 'glide' && placing.places.some((to) => !before.places.some((from) => from.finger === to.finger)))
    return 'The slide changes its finger.';
  return task.timed === 'judged' && !isOpen(placing) ? timeFault(task, played, at, placing) : null;
}

function isOpen({ places }: Placing): boolean {
  return places.every(({ finger }) => finger === '0');
}

/** The hand that a shift leaves is the one at the last stopped note; the time runs from when that note may be left, over at most four open notes. */
function timeFault(task: Task, played: readonly PlayedNote[], at: number, placing: Placing): string | null {
  let last = at - 1;
  while (last > 0 && played[last]!.step !== null && played[last]!.placing && isOpen(played[last]!.placing!)) last--;
  const left = played[last]!.placing;
  if (!left?.hand || !placing.hand || isOpen(left)) return null;
  const from = Math.max(last, at - 5);
  const { limits } = task.player;
  const hold = Math.max(limits.holdLeast, Math.ceil(task.notes[played[from]!.note]!.duration * limits.holdShare));
  const open = played.slice(from + 2, at + 1).reduce((sum, { step }) => sum + step!, 0);
  const available = Math.max(0, played[from + 1]!.step! - hold) + open;
  const [a, b] = [left.hand, placing.hand].map(({ frame, stop }) => ({
    kind: frame === 'thumb' ? ('thumb' as const) : ('neck' as const),
    place: stop,
  }));
  const needed = a!.kind === b!.kind && a!.place === b!.place ? 0 : shiftTime(task.player, a!, b!, limits.acceleration.limit);
  return needed > available ? `The shift takes ${needed} of ${available} microseconds.` : null;
}

function windowFault(task: Task, { windows }: Unplayable): Refutation | null {
  if (windows.length === 0) return { note: 0, why: 'No window is named.' };
  const nested = windows.findIndex(({ first, last }, i) => i > 0 && (first <= windows[i - 1]!.first || last <= windows[i - 1]!.last));
  if (nested >= 0) return { note: windows[nested]!.first, why: 'One window lies inside another.' };
  const wrong = windows.find(({ first, last }) => !isMinimal(task, first, last));
  const byJoin = task.jumps.length > 0 && windows.every(({ first, last }) => stuckFrom(task, first, last) === null);
  return wrong === undefined || byJoin ? null : { note: wrong.first, why: 'The window can be played, or a part of it cannot.' };
}

function isMinimal(task: Task, first: number, last: number): boolean {
  return stuckFrom(task, first, last) === last && (first === last || stuckFrom(task, first + 1, last) === null);
}
