// What changed, told as lines for people, as JSON, or as one page with both states drawn side by side.
import { type Change, type Difference, toldByBar } from '../../arrangement/index.ts';
import type { ComparedTune } from '../../handout/index.ts';
import type { Io } from '../command.ts';
import { fontsOf } from './fonts.ts';
import { handoutTune } from './keep.ts';

/** Hears of each tune that changed; `end` comes last. */
export interface Teller {
  tell(file: string, difference: Difference): void;
  end(): Promise<void>;
}

/** How to tell, by format; `before` and `after` name the two states. */
export const tellers = {
  text: (io: Io): Teller => ({ tell: (file, difference) => tellText(file, difference, io), end: async () => {} }),
  json: (io: Io): Teller => ({ tell: (file, difference) => tellJson(file, difference, io), end: async () => {} }),
  html: tellPage,
} as const;

function tellText(file: string, { title, change, changes }: Difference, io: Io): void {
  if (change !== 'changed') {
    io.out(`${file}: ${title}: tune ${change}\n`);
    return;
  }
  for (const [bar, inBar] of grouped(changes))
    io.out(`${file}: ${title}: ${bar === null ? '' : `bar ${bar}: `}${inBar.map((one) => one.words).join('; ')}\n`);
}

function grouped(changes: readonly Change[]): ReadonlyMap<string | null, Change[]> {
  const byBar = new Map<string | null, Change[]>();
  for (const change of changes) byBar.set(change.bar, [...(byBar.get(change.bar) ?? []), change]);
  return byBar;
}

function tellJson(file: string, { title, number, change, changes, old, next }: Difference, io: Io): void {
  const placed = (span: Change['old'], at: number | undefined) =>
    span === null || at === undefined ? null : { from: span.from + at, to: span.to + at };
  const told = changes.map(({ bar, kind, words, ...spans }) => ({
    bar,
    kind,
    words,
    old: placed(spans.old, old?.at),
    new: placed(spans.next, next?.at),
  }));
  io.out(`${JSON.stringify({ file, number, title, change, changes: told })}\n`);
}

/** One page, printed at the end. */
function tellPage(io: Io, before: string, after: string): Teller {
  const tunes: ComparedTune[] = [];
  return {
    tell: (_, difference) => void tunes.push(comparedTune(difference)),
    async end() {
      const { comparisonPage } = await import('../../handout/index.ts');
      io.out(comparisonPage(`What changed: ${before} to ${after}`, before, after, tunes, await fontsOf(io)()));
    },
  };
}

function comparedTune(difference: Difference): ComparedTune {
  const { title, old, next } = difference;
  return { title, old: old && handoutTune(old.stage), next: next && handoutTune(next.stage), ...toldByBar(difference) };
}
