// Two states of a book side by side as one HTML page: a row a bar, what changed marked and told in words. Works offline.
import type { BarPair, BarSide } from '../../arrangement/compare.ts';
import { engravedSystems, type PrintedSystem } from '../page/engraved.ts';
import { type FontBook, markBox } from '../page/fonts.ts';
import { short } from '../page/marks.ts';
import { papers } from '../page/paper.ts';
import { joined, nothing } from '../page/path.ts';
import { markElements } from '../page/svg.ts';
import type { HandoutTune } from '../types.ts';
import { escaped } from '../xml.ts';
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

const style = `
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
  return htmlPage(title, { conduct: 'still', style, fonts }, main);
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

/** Systems in the page, each under an id that the pictures of its bars use. */
interface Drawn {
  readonly systems: readonly { readonly id: string; readonly printed: PrintedSystem; readonly top: number; readonly bottom: number }[];
  readonly store: string;
  readonly problem: string | null;
}

function drawn(tune: HandoutTune | null, id: string, fonts: FontBook): Drawn {
  const printed = tune === null ? [] : engravedSystems(tune, papers.a4, fonts);
  if ('problem' in printed) return { systems: [], store: '', problem: printed.problem };
  const systems = printed.map((one, i) => {
    const { top, bottom } = one.marks.map((mark) => markBox(fonts, mark)).reduce(joined, nothing);
    return { id: `${id}${i}`, printed: one, top, bottom };
  });
  const groups = systems.map((system) => `<g id="${system.id}">${markElements(system.printed.marks, fonts)}</g>`);
  return { systems, store: `<svg class="store" aria-hidden="true"><defs>${groups.join('')}</defs></svg>`, problem: null };
}

/** Where a bar stands on the picture; null if it has no note to be found by. */
function placeOf({ systems }: Drawn, bar: BarSide | null): Place | null {
  const at = systems.find(({ printed }) => bar !== null && printed.system.notes.some((note) => isIn(note.match?.note, bar)));
  return at === undefined ? null : { at, ...stretchOf(at.printed.system, bar!) };
}

interface Place {
  readonly at: Drawn['systems'][number];
  readonly left: number;
  readonly right: number;
}

/** Room over and under the top staff line, one for both pictures of a row, so that their staffs stand at one height. */
interface Room {
  readonly above: number;
  readonly below: number;
}

function roomOf(places: readonly (Place | null)[]): Room {
  const there = places.flatMap((place) => (place === null ? [] : [place.at]));
  return {
    above: Math.max(0, ...there.map((at) => staffTop(at) - at.top)),
    below: Math.max(0, ...there.map((at) => at.bottom - staffTop(at))),
  };
}

const staffTop = ({ printed }: Place['at']): number => printed.system.staffs[0]!.top;

/** The stretch of its system that a bar takes, with a band behind each note that changed; its notes in words where it is not drawn. */
function pictureOf(place: Place | null, bar: BarSide, label: string, { above, below }: Room): string {
  if (place === null) return escaped(bar.spelled);
  const { at, left, right } = place;
  const [x, y, width, height] = [left, staffTop(at) - above, right - left, above + below].map(short) as [number, number, number, number];
  const bands = at.printed.system.notes
    .filter(({ match }) => bar.changed.some((span) => isIn(match?.note, span)))
    .map(({ heads }) => bandOf(heads, y, height));
  const size = `width="${short(width * magnified)}" height="${short(height * magnified)}"`;
  return `<svg role="img" aria-label="${escaped(`${label}: ${bar.spelled}`)}" ${size} viewBox="${x} ${y} ${width} ${height}">${bands.join('')}<use href="#${at.id}"/></svg>`;
}

/** Pixels a unit of the engraving. */
const magnified = 1.25;

function bandOf(heads: readonly { readonly x: number }[], y: number, height: number): string {
  const xs = heads.map(({ x }) => x);
  const from = Math.min(...xs) - beside;
  return `<rect class="mark" x="${short(from)}" y="${y}" width="${short(Math.max(...xs) + beside - from)}" height="${height}"/>`;
}

/** Room of a note's band on either side of its middle, in units of the engraving. */
const beside = 10;

const isIn = (note: { readonly from: number; readonly to: number } | undefined, span: { readonly from: number; readonly to: number }) =>
  note !== undefined && note.from >= span.from && note.to <= span.to;

/** From the bar line before the bar's notes to the one after them; from the clef if it is the first of its system. */
function stretchOf({ left, right, notes, bars }: PrintedSystem['system'], bar: BarSide): { readonly left: number; readonly right: number } {
  const xs = notes.map(({ match, heads }) => ({ own: isIn(match?.note, bar), x: heads[0]?.x ?? 0 }));
  const own = xs.filter((note) => note.own).map(({ x }) => x);
  const [first, last] = [Math.min(...own), Math.max(...own)];
  const leads = xs.every(({ x }) => x >= first);
  return {
    left: leads ? left : Math.max(left, ...bars.filter(({ x }) => x < first).map(({ x }) => x)),
    right: Math.min(right, ...bars.filter(({ x }) => x > last).map(({ x, width }) => x + width)),
  };
}
