// How a file is practised: what the row of controls is set to, and how that is remembered for the files practised last.

export interface Practice {
  /** Share of the tune's tempo: 1 is as written. */
  readonly share: number;
  readonly clicks: 'none' | 'all' | '1-3' | '2-4';
  readonly countIn: 'none' | 'bar';
  readonly repeat: 'once' | 'loop';
  /** A soft octave above the bass, for small loudspeakers. */
  readonly guide: 'none' | 'octave';
  readonly chords: 'none' | 'soft';
  /** The key's root held, alone or with its fifth. */
  readonly drone: 'none' | 'root' | 'fifth';
}

export const usualPractice: Practice = {
  share: 1,
  clicks: 'none',
  countIn: 'bar',
  repeat: 'once',
  guide: 'none',
  chords: 'none',
  drone: 'none',
};

const choices: { readonly [K in Exclude<keyof Practice, 'share'>]: readonly Practice[K][] } = {
  clicks: ['none', 'all', '1-3', '2-4'],
  countIn: ['none', 'bar'],
  repeat: ['once', 'loop'],
  guide: ['none', 'octave'],
  chords: ['none', 'soft'],
  drone: ['none', 'root', 'fifth'],
};

/** Slower and faster than these no control goes. */
export const leastShare = 0.1;
const mostShare = 10;

const isRecord = (value: unknown): value is { readonly [K in keyof Practice]?: unknown } => typeof value === 'object' && value !== null;

/** What is left of a practice that an older version, or a damaged store, hands back; the usual in place of what makes no sense. */
export function practiceFrom(value: unknown): Practice {
  const given = isRecord(value) ? value : {};
  const one = <K extends keyof typeof choices>(key: K): Practice[K] =>
    (choices[key] as readonly Practice[K][]).find((choice) => choice === given[key]) ?? usualPractice[key];
  const share = typeof given.share === 'number' && Number.isFinite(given.share) ? given.share : usualPractice.share;
  return {
    share: Math.min(mostShare, Math.max(leastShare, share)),
    clicks: one('clicks'),
    countIn: one('countIn'),
    repeat: one('repeat'),
    guide: one('guide'),
    chords: one('chords'),
    drone: one('drone'),
  };
}

/** Files by URI, the one practised last at the end. JSON-safe. */
export type Practices = readonly (readonly [uri: string, practice: Practice])[];

/** More files than anyone has in hand at a time. */
const mostFiles = 50;

/** All that can be read of a store. */
export function practicesFrom(value: unknown): Practices {
  if (!Array.isArray(value)) return [];
  return value
    .flatMap((each): Practices => (Array.isArray(each) && typeof each[0] === 'string' ? [[each[0], practiceFrom(each[1])]] : []))
    .slice(-mostFiles);
}

/** With a file's practice as the newest; the oldest falls out. */
export const withPractice = (all: Practices, uri: string, practice: Practice): Practices =>
  [...all.filter(([known]) => known !== uri), [uri, practice] as const].slice(-mostFiles);

/** How a file was practised; null if it is not remembered. */
export const practiceOf = (all: Practices, uri: string): Practice | null => all.find(([known]) => known === uri)?.[1] ?? null;
