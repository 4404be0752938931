// Where one bar may follow another in play across a repeat, an ending or the end of a section: the places where a bar may be split.
import type { Bar } from '../../score/types.ts';

/** `after` may sound right after `before`; `repeat` goes back, `section` goes on, `ending` enters or leaves an ending. */
export interface Join<B extends Bar = Bar> {
  readonly before: B;
  readonly after: B;
  readonly kind: 'section' | 'repeat' | 'ending';
}

/** All joins of a voice's bars, the way back from the end to the beginning included. */
export function joinsOf<B extends Bar>(bars: readonly B[]): readonly Join<B>[] {
  const joins: Join<B>[] = [];
  for (const [i, bar] of bars.entries()) {
    const next = bars[i + 1];
    if (next !== undefined) joins.push(...joinsOnward(bars, i, bar, next));
    if (bar.endRepeats > 0) joins.push({ before: bar, after: bars[repeatStart(bars, i)]!, kind: 'repeat' });
  }
  const [first, last] = [bars[0], bars.at(-1)];
  if (first !== undefined && last !== undefined && first !== last) joins.push({ before: last, after: first, kind: 'section' });
  return joins;
}

function joinsOnward<B extends Bar>(bars: readonly B[], i: number, bar: B, next: B): readonly Join<B>[] {
  if (next.ending.length > 0 && !sameEnding(bar, next)) {
    const body = bars.slice(0, i + 1).findLast((b) => b.ending.length === 0);
    return body === undefined ? [] : [{ before: body, after: next, kind: 'ending' }];
  }
  if (bar.ending.length > 0 && !sameEnding(bar, next)) return [{ before: bar, after: next, kind: 'section' }];
  return isSectionBorder(bar, next) ? [{ before: bar, after: next, kind: 'section' }] : [];
}

const sameEnding = (a: Bar, b: Bar): boolean => a.ending.join() === b.ending.join();

const isSectionBorder = (bar: Bar, next: Bar): boolean =>
  bar.sectionEnd || bar.endRepeats > 0 || next.startRepeats > 0 || bar.part !== next.part;

/** Index of the bar that the repeat closed by bar `end` goes back to: the latest opening, else what follows the latest border. */
export function repeatStart(bars: readonly Bar[], end: number): number {
  for (let i = end; i > 0; i--) {
    const [bar, before] = [bars[i]!, bars[i - 1]!];
    if (bar.startRepeats > 0) return i;
    const leavesEnding = before.ending.length > 0 && bar.ending.length === 0;
    if ((before.endRepeats > 0 || before.sectionEnd) && (bar.ending.length === 0 || leavesEnding)) return i;
  }
  return 0;
}
