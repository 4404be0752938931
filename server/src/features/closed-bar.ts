// The bar that has just been closed by typing its bar line.
import type { Offset, Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { itemsOf, lineAt } from './shared/locate.ts';

/** The question is the caret after the bar line; the answer the bar before it on the same line, its bar line included. Null where no bar line ends there. */
export const closedBar: Feature<'text', Offset, Span | null> = {
  needs: 'text',
  answer({ tree }, at) {
    const line = lineAt(tree.lines, at);
    const bars = line === null ? [] : itemsOf(line).filter(({ item }) => item.kind === 'bar');
    const closing = bars.findIndex((bar) => bar.to === at);
    if (line === null || closing < 0) return null;
    return { from: bars[closing - 1]?.to ?? line.at, to: at };
  },
};
