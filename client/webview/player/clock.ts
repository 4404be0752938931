// Feeds planned sounds to an instrument a little ahead of time, round after round; a new plan takes over at the next sound.
import type { PlayPlan, Sound } from './plan.ts';
import { soundsOfRound } from './plan.ts';

/** A sound on the clock, in seconds: when it begins, and when it ends (a click dies by itself). */
export interface Given {
  readonly sound: Sound;
  readonly time: number;
  readonly end: number;
}

/** Whether the stretch is played again and again; what has begun is played to its end. */
export type Repeat = 'once' | 'loop';

export interface Feed {
  /** Sounds that fall before `until` (on the clock) and were not given before. */
  due(until: number): Given[];
  /**
   * Goes on with another plan: the next sound comes when it would have come, and from there on the new plan's pace holds.
   * A place that the new plan does not play is left for its beginning. What has been given and now ends at another time is returned.
   */
  change(plan: PlayPlan, repeat: Repeat): Given[];
  /** When the last round ends, on the clock; infinite in a loop. */
  readonly end: number;
}

/** Where the music has got to: what comes next, and when. */
interface Coming {
  readonly place: number;
  readonly round: number;
  readonly time: number;
}

interface Ringing extends Given {
  readonly round: number;
}

/** Places in whole notes and times in seconds nearer than this are the same. */
const same = 1e-9;

/** `origin` is the clock's time of the first sound. */
export function makeFeed(first: PlayPlan, origin: number, asked: Repeat): Feed {
  let plan = first;
  let repeat = asked;
  let start = origin;
  let round = 0;
  let next = 0;
  let sounds = soundsOfRound(plan, 0);
  let horizon = Number.NEGATIVE_INFINITY;
  let ringing: Ringing[] = [];

  const timeOf = (place: number, inRound: number): number => start + plan.at(place) + inRound * plan.round;

  function coming(): Coming {
    const sound = sounds[next];
    if (sound !== undefined) return { place: sound.place, round, time: start + sound.at };
    if (repeat === 'once') return { place: plan.stretch.to, round, time: timeOf(plan.stretch.to, round) };
    const place = soundsOfRound(plan, round + 1)[0]?.place ?? plan.stretch.from;
    return { place, round: round + 1, time: timeOf(place, round + 1) };
  }

  /** To the next round, if there is one with sounds in it. */
  function turned(): boolean {
    const again = repeat === 'loop' && plan.round > 0 ? soundsOfRound(plan, round + 1) : [];
    if (again.length === 0) return false;
    round++;
    next = 0;
    sounds = again;
    return true;
  }

  function give(): Given {
    const sound = sounds[next++]!;
    const time = start + sound.at;
    const given = { sound, time, end: sound.kind === 'click' ? time : timeOf(sound.until, round) };
    ringing.push({ ...given, round });
    return given;
  }

  /** The old plan is in force until `from`, the new one after. `last` is the place of what was given last in this round. */
  function goOn(from: Coming, last: number): void {
    start = from.time - plan.at(from.place) - from.round * plan.round;
    sounds = soundsOfRound(plan, round);
    // What lies between may be new (clicks that were off): it is given where its time has not gone by.
    const index = sounds.findIndex(({ at, place }) => place > last + same && start + at >= horizon - same);
    next = index < 0 ? sounds.length : index;
  }

  function beginAt(time: number): void {
    round++;
    next = 0;
    start = time - plan.countIn - round * plan.round;
    sounds = soundsOfRound(plan, round);
  }

  function moved(from: Coming): Given[] {
    const changed: Given[] = [];
    ringing = ringing.map((given) => {
      const { sound, round: inRound } = given;
      const later = sound.kind !== 'click' && (inRound > from.round || (inRound === from.round && sound.until > from.place + same));
      const end = later ? timeOf(sound.until, inRound) : given.end;
      if (Math.abs(end - given.end) > same) changed.push({ ...given, end });
      return { ...given, end };
    });
    return changed;
  }

  return {
    due(until) {
      const found: Given[] = [];
      while (next < sounds.length || turned()) {
        if (start + sounds[next]!.at >= until) break;
        found.push(give());
      }
      horizon = Math.max(horizon, until);
      ringing = ringing.filter(({ end }) => end >= horizon);
      return found;
    },
    change(other, again) {
      repeat = again;
      const from = coming();
      let last = sounds[next - 1]?.place ?? Number.NEGATIVE_INFINITY;
      const inCountIn = from.round === 0 && from.place < plan.stretch.from && plan.stretch.from === other.stretch.from;
      const inside = from.place >= other.stretch.from - same && from.place <= other.stretch.to + same;
      if (from.round > round && plan.stretch.from !== other.stretch.from) {
        round = from.round;
        last = from.place - 2 * same;
      }
      plan = other;
      if (!inside && !inCountIn) {
        beginAt(from.time);
        return [];
      }
      goOn(from, last);
      return moved(from);
    },
    get end() {
      return repeat === 'loop' ? Number.POSITIVE_INFINITY : timeOf(plan.stretch.to, round);
    },
  };
}
