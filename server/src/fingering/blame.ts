// Which limit makes a window impossible: the first, in a fixed order, whose lifting alone frees it; else the first two together.
import { spanMm } from '../bass/index.ts';
import type { TableCache } from './cache.ts';
import { timingInto } from './chain.ts';
import { fingerRank, handCount, noHand } from './hands.ts';
import { type LimitClass, limitClasses } from './limits/lifted.ts';
import { linksOf } from './links.ts';
import { modelFor } from './model.ts';
import { shiftTimes } from './pace.ts';
import { factorOver } from './top-tempo.ts';
import type { LimitCode, Task, TaskNote, Window } from './types.ts';
import { type Blame, whyUnplaceable } from './unplaceable.ts';
import { type Stretch, stuckAt } from './windows.ts';
import type { Work } from './work.ts';

/** The window with what is to blame, the figures, and the least slowdown. */
export function* explainWindow(task: Task, cache: TableCache, stretch: Stretch): Work<Window> {
  const { weights } = modelFor(task, cache);
  const alone = stretch.first === stretch.last ? whyUnplaceable(task.player, weights, task.notes[stretch.first]!) : null;
  const slowdown = yield* factorOver(task, cache, stretch);
  if (alone) return { ...stretch, ...alone, also: [], slowdown: null };
  const classes = yield* freeing(task, cache, stretch, slowdown === null ? limitClasses : timeFirst);
  const [first, ...also] = classes.map((one) => figures(task, cache, stretch, one, slowdown));
  return { ...stretch, ...first!, also: also.map((one) => one.code), slowdown };
}

/** What slowing down mends is a matter of time, whatever else would free it. */
const timeFirst: readonly LimitClass[] = [...new Set<LimitClass>(['hop', 'time', ...limitClasses])];

/** The smallest set of classes whose lifting frees the window: one if one is enough, else two, else all. */
function* freeing(task: Task, cache: TableCache, stretch: Stretch, order: readonly LimitClass[]): Work<readonly LimitClass[]> {
  const links = linksOf(task);
  const singles = order.map((one) => [one]);
  const pairs = order.flatMap((one, i) => order.slice(i + 1).map((other) => [one, other]));
  for (const classes of [...singles, ...pairs]) {
    const model = modelFor(task, cache, new Set(classes));
    if ((yield* stuckAt(model, task, links, stretch)) === null) return classes;
  }
  return limitClasses;
}

function figures(task: Task, cache: TableCache, stretch: Stretch, cause: LimitClass, slowdown: number | null): Blame {
  const notes = task.notes.slice(stretch.first, stretch.last + 1);
  switch (cause) {
    case 'crosses':
      return plain(slurCode(notes));
    case 'direction':
      return plain(samePitch(notes) ? 'slur.same-pitch' : 'pull.wrong-direction');
    case 'slide':
      return plain(slideCode(task, notes));
    case 'reach':
      return reachFigures(task, notes);
    case 'hop':
      return { code: 'hop.too-fast', ...hopTimes(task, stretch), unit: 'ms' };
    case 'time':
      return { code: 'shift.too-far', ...shiftTimesOf(task, cache, stretch, slowdown), unit: 'ms' };
  }
}

function plain(code: LimitCode): Blame {
  return { code, needed: 0, available: 0, unit: 'none' };
}

const slurred = (note: TaskNote) => note.articulation === 'hammer' || note.articulation === 'pull';

/** A slur that could only be had across strings: because its notes are one pitch, its pinned fingers go the wrong way, or its strings are two. */
function slurCode(notes: readonly TaskNote[]): LimitCode {
  if (samePitch(notes)) return 'slur.same-pitch';
  return notes.some((note, i) => i > 0 && slurred(note) && fingersTurned(notes[i - 1]!, note))
    ? 'pull.wrong-direction'
    : 'hammer.crosses-strings';
}

/** Whether the fingers pinned on two single notes go the other way than their pitches. An open string has no finger to go by. */
function fingersTurned(before: TaskNote, after: TaskNote): boolean {
  const [from, to] = [before.pins[0]?.finger ?? null, after.pins[0]?.finger ?? null];
  if (from === null || to === null || to === '0') return false;
  return (fingerRank(to) - fingerRank(from)) * (after.pitches[0]! - before.pitches[0]!) <= 0;
}

function samePitch(notes: readonly TaskNote[]): boolean {
  return notes.some((note, i) => i > 0 && slurred(note) && note.pitches.join() === notes[i - 1]!.pitches.join());
}

/** A slide that starts or ends open by its pins or its pitch on a pinned string; else it would have to cross strings. */
function slideCode(task: Task, notes: readonly TaskNote[]): LimitCode {
  const { strings } = task.player.setup.tuning;
  const open = notes.some((note) =>
    note.pins.some((pin, i) => pin.finger === '0' || (pin.string !== null && note.pitches[i] === strings[pin.string]!.open)),
  );
  return open ? 'slide.open-string' : 'slide.crosses-strings';
}

/** The least span in mm that one hand would have to reach, and the hand's; frames decide where the span would do. */
function reachFigures(task: Task, notes: readonly TaskNote[]): Blame {
  const needed = Math.min(...spansAsked(task, notes));
  const available = task.player.reach.extended.oneFour;
  if (!Number.isFinite(needed) || needed <= available) return plain('finger.not-in-frame');
  return { code: 'reach.too-wide', needed: Math.round(needed * 10) / 10, available, unit: 'mm' };
}

function spansAsked({ player }: Task, notes: readonly TaskNote[]): readonly number[] {
  const { tuning, mensur, top } = player.setup;
  return notes.flatMap((note, i) => {
    const before = notes[i - 1];
    if (!before || !slurred(note)) return [];
    return tuning.strings.flatMap(({ open }, string) => {
      const pinned = [before, note].some((one) => one.pins.some((pin) => pin.string !== null && pin.string !== string));
      const stops = [before.pitches[0]! - open, note.pitches[0]! - open];
      return pinned || stops.some((stop) => stop <= 0 || stop > top) ? [] : [spanMm(mensur, stops[0]!, stops[1]!)];
    });
  });
}

/** In ms: what a hop takes and the shortest step of the window. */
function hopTimes(task: Task, { first, last }: Stretch): { needed: number; available: number } {
  const steps = Array.from({ length: last - first }, (_, i) => task.notes[first + i + 1]!.onset - task.notes[first + i]!.onset);
  return { needed: task.player.limits.hop / 1000, available: Math.min(...steps) / 1000 };
}

/** In ms: the move that binds in the easiest way through the window (its least slowdown), and the time there is for it. */
function shiftTimesOf(task: Task, cache: TableCache, stretch: Stretch, slowdown: number | null): { needed: number; available: number } {
  const model = modelFor(task, cache);
  const times = shiftTimes(task.player, 'limit');
  let best = { needed: 0, available: 0, off: Number.POSITIVE_INFINITY };
  const links = linksOf(task);
  let layer = model.layers.layerFor(task.notes[stretch.first]!, model.layers.start);
  for (let i = stretch.first + 1; i <= stretch.last; i++) {
    const next = model.layers.layerFor(task.notes[i]!, layer.carried);
    const { available } = timingInto(model, task, links, i);
    for (const a of layer.states) {
      for (const b of next.states) {
        if (b.free > 0 || a.hand === noHand) continue;
        const needed = times[a.hand * handCount + b.hand]!;
        const over = needed / Math.max(1, available[a.free]!);
        const off = Math.abs(over - (slowdown ?? over));
        if (needed > available[a.free]! && off < best.off) best = { needed, available: available[a.free]!, off };
      }
    }
    layer = next;
  }
  return { needed: Math.round(best.needed / 1000), available: Math.round(best.available / 1000) };
}
