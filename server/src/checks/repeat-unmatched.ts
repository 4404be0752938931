// repeat.unmatched: a repeat is opened and never closed. A leading `:|` is fine: it goes back to the start.
import type { Bar, Score, Voice } from '../score/types.ts';
import type { Span } from '../text/span.ts';
import type { Check, Finding, Fix } from './check.ts';
import { finding } from './shared/finding.ts';

export const repeatUnmatched: Check<'score'> = {
  codes: ['repeat.unmatched'],
  needs: 'score',
  severity: 'warning',
  find: (stage) => unclosed(stage.score).map(({ sign, closing }) => unclosedFinding(sign, closing)),
};

type Sign = NonNullable<Bar['closedBy']>;
interface Unclosed {
  readonly sign: Sign;
  /** The sign at which the repeat should have been closed. */
  readonly closing: Sign | null;
}

const unclosed = (score: Score): readonly Unclosed[] => score.voices.flatMap(unclosedIn);

function unclosedIn(voice: Voice): readonly Unclosed[] {
  const found: Unclosed[] = [];
  let open: Sign | null = null;
  for (const [i, bar] of voice.bars.entries()) {
    if (bar.startRepeats > 0) {
      const sign = voice.bars[i - 1]?.closedBy ?? null;
      if (open !== null) found.push({ sign: open, closing: sign });
      open = sign ?? { from: bar.from, to: bar.from, sign: '' };
    }
    if (bar.endRepeats > 0) open = null;
  }
  if (open !== null) found.push({ sign: open, closing: voice.bars.findLast((bar) => bar.closedBy !== null)?.closedBy ?? null });
  return found;
}

const unclosedFinding = (sign: Sign, closing: Sign | null): Finding =>
  finding(
    'repeat.unmatched',
    'warning',
    sign,
    'This repeat is opened here and never closed: readers will differ on whether the passage is played twice. Close it with :| or drop the colon.',
    { fixes: [...close(closing), ...drop(sign)] },
  );

function close(closing: Sign | null): readonly Fix[] {
  if (closing === null) return [];
  return [
    { title: 'Close the repeat at the end of the passage', edits: [replaced(closing, `:${closing.sign.replace(/^\[?\|+\]?/, '|')}`)] },
  ];
}

const drop = (sign: Sign): readonly Fix[] =>
  sign.sign.endsWith(':') ? [{ title: 'Play the passage once', edits: [replaced(sign, sign.sign.replace(/:+$/, ''))] }] : [];

const replaced = (sign: Span, insert: string) => ({ span: { from: sign.from, to: sign.to }, insert });
