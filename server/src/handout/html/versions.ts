// Two versions of a tune side by side as one HTML page: a row a bar, by part and number. Works offline.
import type { BarPair, BarSide } from '../../arrangement/compare.ts';
import type { FontBook } from '../page/fonts.ts';
import type { HandoutTune } from '../types.ts';
import { escaped } from '../xml.ts';
import { type Drawn, drawn, pictureOf, placeOf, roomOf } from './bar-pictures.ts';
import { tableStyle } from './comparison.ts';
import { htmlPage } from './page.ts';

/** One version as a column: what it is called over its bars. */
export interface VersionColumn {
  readonly name: string;
  readonly tune: HandoutTune;
}

const style = `${tableStyle}
th[scope=col]:nth-child(2),th[scope=col]:nth-child(3){width:48%}
thead th{position:sticky;top:0;background:#fff}
`;

/** The page. `bars` pair the left version's bars with the right one's. */
export function versionsPage(title: string, left: VersionColumn, right: VersionColumn, bars: readonly BarPair[], fonts: FontBook): string {
  const columns = [drawn(left.tune, 'l', fonts), drawn(right.tune, 'r', fonts)] as const;
  const names = [left.name, right.name] as const;
  const main = [
    `<h1>${escaped(title)}</h1>`,
    ...columns.flatMap(({ problem }, i) =>
      problem === null ? [] : [`<p>The ${escaped(names[i]!)} could not be engraved: ${escaped(problem)}</p>`],
    ),
    ...columns.map(({ store }) => store),
    '<table>',
    `<thead><tr>${['Bar', ...names].map((head) => `<th scope="col">${escaped(head)}</th>`).join('')}</tr></thead>`,
    ...bars.map((bar, i) => partHead(bar, bars[i - 1]) + rowOf(bar, columns, names)),
    '</table>',
  ];
  return htmlPage(title, { conduct: 'still', style, fonts }, main);
}

const partHead = ({ part }: BarPair, before: BarPair | undefined): string =>
  part === '' || part === before?.part ? '' : `<tr><th scope="colgroup" colspan="3">Part ${escaped(part)}</th></tr>`;

function rowOf({ name, old, next }: BarPair, [left, right]: readonly [Drawn, Drawn], names: readonly [string, string]): string {
  const places = [placeOf(left, old), placeOf(right, next)] as const;
  const room = roomOf(places);
  const cell = (side: BarSide | null, i: 0 | 1): string =>
    `<td>${side === null ? 'No such bar.' : pictureOf(places[i], side, `Bar ${name}, ${names[i]}`, room)}</td>`;
  return `<tr><th scope="row">${escaped(name)}</th>${cell(old, 0)}${cell(next, 1)}</tr>`;
}
