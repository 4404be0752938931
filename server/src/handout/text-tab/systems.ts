// Columns of text set into bars, and bars into systems that fit the width of a terminal or a mail.

import { isOpeningPickup } from '../../score/bar-numbers.ts';
import { toNumber } from '../../score/fraction.ts';
import type { Bar } from '../../score/types.ts';
import { type Column, columnsOf, type TabContext } from './columns.ts';

/** A row of a system: what names it, how it is filled, and its text in a column. */
interface Row {
  readonly name: string;
  readonly fill: ' ' | '-';
  readonly in: (column: Column) => string;
}

/** A bar with its columns and their widths in characters. */
interface SetBar {
  readonly bar: Bar;
  readonly columns: readonly { readonly column: Column; readonly width: number }[];
  readonly label: string;
  readonly width: number;
}

const lineWidth = 78;
const barsALine = 4;
const widestColumn = 8;

/** The systems of a part as lines of text, with a blank line between systems. */
export function systemsOf(context: TabContext): readonly string[] {
  const bars = context.voice.bars.map((bar, i) => setBar(bar, context.voice.bars[i - 1] ?? null, context));
  const shown = bars.filter(({ columns, bar }) => columns.length > 0 || bar.duration.num > 0);
  return breakLines(shown, context).flatMap((line, i) => [...(i > 0 ? [''] : []), ...systemLines(line, context)]);
}

function setBar(bar: Bar, before: Bar | null, context: TabContext): SetBar {
  const columns = columnsOf(bar, context).map((column) => ({ column, width: columnWidth(column) }));
  const part = context.voice.parts.find((p) => p.bar === bar.index)?.label;
  const ending = bar.ending.length > 0 && bar.ending.join() !== before?.ending.join() ? `[${bar.ending.join(',')}` : '';
  const label = [part === undefined ? '' : `(${part})`, ending].filter((text) => text !== '').join(' ');
  const width = Math.max(
    label.length + 1,
    columns.reduce((sum, c) => sum + c.width, 0),
  );
  return { bar, columns, label, width };
}

/** A character a sixteenth, and room for what stands in it. */
function columnWidth(column: Column): number {
  const texts = [column.chord, column.hand, column.finger, column.rhythm, ...column.stops, ...column.lyrics];
  const needed = Math.max(...texts.map((text) => text.length)) + 1;
  return Math.max(needed, Math.min(widestColumn, Math.round(toNumber(column.duration) * 16)));
}

/** At most four bars a line, fewer where they do not fit; a labelled part begins a line; a pickup does not count. */
function breakLines(bars: readonly SetBar[], context: TabContext): readonly (readonly SetBar[])[] {
  const lines: SetBar[][] = [];
  let width = 0;
  let count = 0;
  for (const set of bars) {
    const startsPart = context.voice.parts.some((part) => part.bar === set.bar.index);
    if (lines.length === 0 || count >= barsALine || width + set.width + 4 > lineWidth || (startsPart && count > 0)) {
      lines.push([]);
      width = 8;
      count = 0;
    }
    lines.at(-1)!.push(set);
    width += set.width + 4;
    count += isOpeningPickup(set.bar) ? 0 : 1;
  }
  return lines;
}

function systemLines(line: readonly SetBar[], context: TabContext): readonly string[] {
  const strings = context.strings.map((name, s): Row => ({ name, fill: '-', in: (column) => column.stops[s]! }));
  const verses = Array.from({ length: context.verses }, (_, v): Row => ({ name: 'words', fill: ' ', in: (column) => column.lyrics[v]! }));
  const rows: readonly Row[] = [
    { name: 'chord', fill: ' ', in: (column) => column.chord },
    { name: 'hand', fill: ' ', in: (column) => column.hand },
    { name: 'finger', fill: ' ', in: (column) => column.finger },
    ...strings,
    { name: 'value', fill: ' ', in: (column) => column.rhythm },
    ...verses,
  ];
  const used = rows.filter((row) => row.fill === '-' || line.some((set) => set.columns.some(({ column }) => row.in(column) !== '')));
  const texts = used.map((row) => rowText(row, line, context.strings));
  return line.some((set) => set.label !== '') ? [labelLine(line), ...texts] : texts;
}

function rowText(row: Row, line: readonly SetBar[], strings: readonly string[]): string {
  const edge = row.name === strings[0] || row.name === strings.at(-1);
  const barLine = (sign: string): string => (row.fill === '-' ? (edge ? sign.replaceAll(':', '-') : sign) : ' '.repeat(sign.length));
  const bars = line.map((set, i) => {
    const cells = set.columns.map(({ column, width }) => row.in(column).padEnd(width, row.fill)).join('');
    return row.fill + cells.padEnd(set.width, row.fill) + barLine(closing(set.bar, line[i + 1]?.bar ?? null));
  });
  return (row.name.padEnd(7) + barLine(opening(line[0]!.bar)) + bars.join('')).trimEnd();
}

const opening = (bar: Bar): string => (bar.startRepeats > 0 ? '|:' : '|');

/** The sign between a bar and the next of its line; a repeat that begins the next line is printed there. */
function closing(bar: Bar, next: Bar | null): string {
  const opens = next !== null && next.startRepeats > 0;
  if (bar.endRepeats > 0) return opens ? ':|:' : ':|';
  if (opens) return '|:';
  return bar.sectionEnd ? '||' : '|';
}

function labelLine(line: readonly SetBar[]): string {
  let text = ' '.repeat(7 + opening(line[0]!.bar).length);
  for (const [i, set] of line.entries()) {
    text += ` ${set.label.padEnd(set.width)}${' '.repeat(closing(set.bar, line[i + 1]?.bar ?? null).length)}`;
  }
  return text.trimEnd();
}
