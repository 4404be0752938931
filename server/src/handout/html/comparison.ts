// Two states of a book side by side as one HTML page: a row a bar, what changed marked and told in words. Works offline.
import type { BarPair } from '../../arrangement/compare.ts';
import type { FontBook } from '../page/fonts.ts';
import type { HandoutTune } from '../types.ts';
import { escaped } from '../xml.ts';
import { type Drawn, drawn, pictureOf, placeOf, roomOf } from './bar-pictures.ts';
import { htmlPage } from './page.ts';

/** A tune in its two states; null where it is not there. */
export interface ComparedTune {
  readonly title: string;
  readonly old: HandoutTune | null;
  readonly next: HandoutTune | null;
  /** What changed in the tune as a whole, in words. */
  readonly words: readonly string[];
  readonly bars: readonly BarPair[];
}

/** Shared by pages that show two texts side by side. */
export const tableStyle = `
body{font:16px/1.5 system-ui,sans-serif;margin:2rem auto;max-width:76rem;padding:0 1rem;color:#111;background:#fff}
table{border-collapse:collapse;width:100%}
th,td{padding:.4rem .6rem;text-align:left;vertical-align:top;border-bottom:1px solid #ccc}
th[scope=row]{white-space:nowrap}
th[scope=col]:nth-child(2),th[scope=col]:nth-child(3){width:36%}
tr.changed>*{background:#fff8e1}
tr.changed>th{border-left:.4rem solid #8a5a00}
td svg{max-width:100%;height:auto;display:block}
.mark{fill:#ffd45e;fill-opacity:.6;stroke:#8a5a00;stroke-width:1.2;stroke-dasharray:4 2}
.store{position:absolute;width:0;height:0}
@media print{body{margin:0;max-width:none}tr{break-inside:avoid}}
`;

/** The page. `before` and `after` name the two states. */
export function comparisonPage(title: string, before: string, after: string, tunes: readonly ComparedTune[], fonts: FontBook): string {
  const sections = tunes.map((tune, i) => tuneSection(tune, `t${i}`, { before, after }, fonts));
  const main = [`<h1>${escaped(title)}</h1>`, ...(tunes.length === 0 ? ['<p>Nothing changed.</p>'] : sections)];
  return htmlPage(title, { conduct: 'still', style: tableStyle, fonts }, main);
}

type Names = { readonly before: string; readonly after: string };

function tuneSection(tune: ComparedTune, id: string, names: Names, fonts: FontBook): string {
  const title = escaped(tune.title === '' ? 'Untitled' : tune.title);
  const changed = tune.bars.filter(({ words }) => words.length > 0).map(({ name }) => name);
  return [
    `<section aria-labelledby="${id}">`,
    `<h2 id="${id}">${title}</h2>`,
    ...tune.words.map((text) => `<p>${escaped(text)}</p>`),
    ...(changed.length > 0 ? [`<p>Bars that changed: ${escaped(changed.join(', '))}.</p>`] : []),
    ...(tune.bars.length > 0 ? tableOf(tune, id, names, fonts) : []),
    '</section>',
  ].join('\n');
}

function tableOf(tune: ComparedTune, id: string, { before, after }: Names, fonts: FontBook): readonly string[] {
  const old = drawn(tune.old, `${id}o`, fonts);
  const next = drawn(tune.next, `${id}n`, fonts);
  const heads = ['Bar', before, after, 'What changed'].map((head) => `<th scope="col">${escaped(head)}</th>`);
  return [
    ...[old, next].flatMap(({ problem }) => (problem === null ? [] : [`<p>This tune could not be engraved: ${escaped(problem)}</p>`])),
    old.store,
    next.store,
    '<table>',
    `<thead><tr>${heads.join('')}</tr></thead>`,
    ...bodies(tune.bars, old, next),
    '</table>',
  ];
}

/** One body of rows a part. */
function bodies(bars: readonly BarPair[], old: Drawn, next: Drawn): readonly string[] {
  const groups: BarPair[][] = [];
  for (const bar of bars) {
    if (groups.at(-1)?.[0]?.part === bar.part) groups.at(-1)!.push(bar);
    else groups.push([bar]);
  }
  return groups.map((group) => {
    const part = group[0]!.part;
    const head = part === '' ? '' : `<tr><th scope="rowgroup" colspan="4">Part ${escaped(part)}</th></tr>`;
    return `<tbody>${head}${group.map((bar) => rowOf(bar, old, next)).join('\n')}</tbody>`;
  });
}

function rowOf({ name, old, next, words }: BarPair, before: Drawn, after: Drawn): string {
  const [was, is] = [placeOf(before, old), placeOf(after, next)];
  const room = roomOf([was, is]);
  const cells = [
    old === null ? 'No such bar before.' : pictureOf(was, old, `Bar ${name} before`, room),
    next === null ? 'No such bar any more.' : pictureOf(is, next, `Bar ${name} after`, room),
    escaped(words.join('; ')),
  ];
  return `<tr${words.length === 0 ? '' : ' class="changed"'}><th scope="row">${escaped(name)}</th>${cells.map((cell) => `<td>${cell}</td>`).join('')}</tr>`;
}
