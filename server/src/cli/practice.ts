// What is played of a tune, as asked on the command line or in a packet: bars or a part, tempos one after the other, how often.
import type { BarRange, HandoutTune, PracticeOptions } from '../handout/index.ts';

export interface Practised {
  /** Tempos one after the other (`60,66`), in the tune's beat. */
  readonly steps: string | null;
  /** `3-6` or `3`. */
  readonly bars: string | null;
  readonly part: string | null;
  /** How often at each tempo. */
  readonly times: number | null;
}

interface Problem {
  readonly problem: string;
}

/** Slower or faster than this share of the tune's tempo is taken for a slip. */
const speeds = { least: 0.2, most: 2 } as const;

/** Makes playing options for each tune; a problem where the tune has not what is asked. */
export function practiceOf(asked: Practised, playing: PracticeOptions): (tune: HandoutTune) => Promise<PracticeOptions | Problem> {
  return async (tune) => {
    const { backingProblem } = await import('../handout/index.ts');
    const backing = backingProblem(tune, playing);
    if (backing !== null) return { problem: backing };
    const bars = await barsAsked(asked, tune);
    if (bars !== null && 'problem' in bars) return bars;
    const speed = await speedsAsked(asked.steps, tune, playing.speed);
    if ('problem' in speed) return speed;
    return { ...playing, bars, steps: speed.speeds.flatMap((each) => Array.from({ length: asked.times ?? 1 }, () => each)) };
  };
}

/** Bars as text (`3`, `3-6`) as a range; null if it is none. */
export function readBars(text: string): BarRange | null {
  const found = /^\s*(\d{1,4})\s*(?:-\s*(\d{1,4})\s*)?$/.exec(text);
  if (!found) return null;
  const [first, last] = [Number(found[1]), Number(found[2] ?? found[1])];
  return first <= last ? { first, last } : null;
}

/** Why bars cannot be taken of a tune, or null. */
export async function outsideTune({ first, last }: BarRange, tune: HandoutTune): Promise<string | null> {
  const { allBars } = await import('../handout/index.ts');
  const all = allBars(tune);
  return first >= all.first && last <= all.last ? null : `it has bars ${all.first} to ${all.last}, not ${first}-${last}.`;
}

async function barsAsked({ bars, part }: Practised, tune: HandoutTune): Promise<BarRange | Problem | null> {
  if (part !== null) {
    const { partBars } = await import('../handout/index.ts');
    const labels = [...new Set(tune.score.voices.flatMap((voice) => voice.parts.map(({ label }) => label)))];
    const known = labels.length === 0 ? 'it has no parts (P:)' : `its parts are ${labels.join(', ')}`;
    return partBars(tune, part) ?? { problem: `no part "${part}": ${known}.` };
  }
  if (bars === null) return null;
  const range = readBars(bars);
  if (range === null) return { problem: `"${bars}" are no bars; write 3 or 3-6.` };
  const outside = await outsideTune(range, tune);
  return outside === null ? range : { problem: outside };
}

async function speedsAsked(
  steps: string | null,
  tune: HandoutTune,
  speed: number,
): Promise<{ readonly speeds: readonly number[] } | Problem> {
  if (steps === null) return { speeds: [speed] };
  const { tuneTempo, unnamedTempo } = await import('../handout/index.ts');
  const { bpm } = tuneTempo(tune) ?? unnamedTempo;
  const tempos = steps.split(',').map((text) => (text.trim() === '' ? Number.NaN : Number(text)));
  const [least, most] = [Math.ceil(bpm * speeds.least), Math.floor(bpm * speeds.most)];
  const bad = tempos.findIndex((tempo) => !(tempo >= least && tempo <= most));
  if (bad >= 0) return { problem: `"${steps.split(',')[bad]}" is no tempo for it; from ${least} to ${most} beats a minute can be played.` };
  return { speeds: tempos.map((tempo) => tempo / bpm) };
}
