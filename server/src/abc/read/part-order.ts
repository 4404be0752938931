// The order of parts in a header's P: (3.1.9): `ABA`, `A3.B`, `((AB)2A)2`.
import type { PartOrder } from '../tree/fields.ts';

const DEEPEST = 20;
const MOST_TIMES = 99;

/** The order, or null if brackets do not match or nest too deep, or a sign is no part. Dots and spaces are skipped. */
export function readPartOrder(text: string): readonly PartOrder[] | null {
  const open: PartOrder[][] = [[]];
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!;
    const items = open.at(-1)!;
    if (/[A-Za-z]/.test(sign)) items.push({ kind: 'part', label: sign });
    else if (sign === '(') open.push([]);
    else if (sign === ')' && open.length > 1) {
      open.pop();
      open.at(-1)!.push({ kind: 'group', items, times: 1 });
    } else if (/\d/.test(sign) && items.length > 0) {
      const digits = /^\d+/.exec(text.slice(at, at + 3))![0];
      at += digits.length - 1;
      items.push(timesOf(items.pop()!, Math.min(Number(digits), MOST_TIMES)));
    } else if (sign !== '.' && sign !== ' ') return null;
    if (open.length > DEEPEST) return null;
  }
  return open.length === 1 ? open[0]! : null;
}

function timesOf(item: PartOrder, times: number): PartOrder {
  return item.kind === 'group' ? { ...item, times } : { kind: 'group', items: [item], times };
}
