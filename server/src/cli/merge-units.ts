// Three versions of a tune file into one: what either side changed is taken, bar by bar; the same bar changed on both sides is a conflict.
import { type Unit, unitsOf } from './bar-units.ts';

/** The merged text; where there are conflicts, marks as git writes them stand around the bars in question alone. */
export interface Merged {
  readonly text: string;
  readonly conflicts: number;
}

/** A stretch of the old units, from `from` up to `to`, and the text that one side has in its place. */
interface Hunk {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** A stretch that both sides are looked at together for, with the hunks of each inside it. */
interface Group {
  readonly from: number;
  readonly to: number;
  readonly ours: readonly Hunk[];
  readonly theirs: readonly Hunk[];
}

export function mergeTexts(base: string, ours: string, theirs: string): Merged {
  const old = unitsOf(base);
  const groups = groupsOf(hunksOf(old, unitsOf(ours)), hunksOf(old, unitsOf(theirs)));
  const lineEnd = ours.includes('\r\n') ? '\r\n' : '\n';
  let text = '';
  let conflicts = 0;
  let at = 0;
  for (const group of groups) {
    text += joined(old, at, group.from);
    const [mine, yours] = [group.ours, group.theirs].map((hunks) => rebuilt(old, group, hunks)) as [string, string];
    const isClean = mine === yours || group.ours.length === 0 || group.theirs.length === 0;
    if (!isClean) conflicts++;
    text += isClean ? (group.ours.length === 0 ? yours : mine) : marked(text, mine, yours, lineEnd);
    at = group.to;
  }
  return { text: text + joined(old, at, old.length), conflicts };
}

const joined = (units: readonly Unit[], from: number, to: number): string =>
  units
    .slice(from, to)
    .map((unit) => unit.text)
    .join('');

/** The stretch of a group as one side has it. */
function rebuilt(old: readonly Unit[], { from, to }: Group, hunks: readonly Hunk[]): string {
  let text = '';
  let at = from;
  for (const hunk of hunks) {
    text += joined(old, at, hunk.from) + hunk.text;
    at = hunk.to;
  }
  return text + joined(old, at, to);
}

/** Both sides between marks, each mark on a line of its own. */
function marked(before: string, mine: string, yours: string, lineEnd: string): string {
  const closed = (text: string): string => (text === '' || /[\r\n]$/.test(text) ? text : text + lineEnd);
  const start = before === '' || /[\r\n]$/.test(before) ? '' : lineEnd;
  return `${start}<<<<<<< ours${lineEnd}${closed(mine)}=======${lineEnd}${closed(yours)}>>>>>>> theirs${lineEnd}`;
}

/** Hunks of both sides that touch the same old units, together. Hunks side by side stay apart, insertions at one place do not. */
function groupsOf(ours: readonly Hunk[], theirs: readonly Hunk[]): readonly Group[] {
  const tagged = [...ours.map((hunk) => ({ hunk, side: 'ours' as const })), ...theirs.map((hunk) => ({ hunk, side: 'theirs' as const }))];
  const groups: { from: number; to: number; ours: Hunk[]; theirs: Hunk[] }[] = [];
  for (const { hunk, side } of tagged.sort((a, b) => a.hunk.from - b.hunk.from || a.hunk.to - b.hunk.to)) {
    const group = groups.at(-1);
    const together = group !== undefined && (hunk.from < group.to || (hunk.from === group.from && hunk.to === group.to));
    if (!together) groups.push({ from: hunk.from, to: hunk.to, ours: [], theirs: [] });
    const own = groups.at(-1)!;
    own.to = Math.max(own.to, hunk.to);
    own[side].push(hunk);
  }
  return groups;
}

/** What changed between two lists of units. With as many units as before, each is held against the one in its place: an edit inside bars moves none. */
function hunksOf(old: readonly Unit[], next: readonly Unit[]): readonly Hunk[] {
  const sameShape = old.length === next.length && old.every((unit, i) => unit.kind === next[i]!.kind);
  if (sameShape) return old.flatMap((unit, i) => (unit.text === next[i]!.text ? [] : [{ from: i, to: i + 1, text: next[i]!.text }]));
  return hunksBetween(old, next, commonUnits(old, next));
}

type Pair = readonly [number, number];

function hunksBetween(old: readonly Unit[], next: readonly Unit[], pairs: readonly Pair[]): readonly Hunk[] {
  const hunks: Hunk[] = [];
  let [i, j] = [0, 0];
  for (const [a, b] of [...pairs, [old.length, next.length] as const]) {
    const replaced = a - i === b - j;
    if (replaced) for (let k = 0; i + k < a; k++) hunks.push({ from: i + k, to: i + k + 1, text: next[j + k]!.text });
    else hunks.push({ from: i, to: a, text: joined(next, j, b) });
    [i, j] = [a + 1, b + 1];
  }
  return hunks;
}

/** Units that both have, in order: tunes are paired by their first line, then units within them. */
function commonUnits(old: readonly Unit[], next: readonly Unit[]): readonly Pair[] {
  const [olds, nexts] = [tunesOf(old), tunesOf(next)];
  const tunes = commonOf(olds.length, nexts.length, (i, j) => olds[i]!.name === nexts[j]!.name);
  return tunes.flatMap(([a, b]) => {
    const [was, is] = [olds[a]!, nexts[b]!];
    const same = (i: number, j: number): boolean => old[was.from + i]!.text === next[is.from + j]!.text;
    return commonOf(was.count, is.count, same).map(([i, j]): Pair => [was.from + i, is.from + j]);
  });
}

interface TuneUnits {
  readonly name: string;
  readonly from: number;
  readonly count: number;
}

/** The stretches of units that are a tune each, named by their first line; what stands before the first tune has no name. */
function tunesOf(units: readonly Unit[]): readonly TuneUnits[] {
  const starts = units.flatMap(({ tune }, i) => (i === 0 || units[i - 1]!.tune !== tune ? [i] : []));
  return starts.map((from, i) => ({
    name: units[from]!.tune < 0 ? '' : units[from]!.text.trim(),
    from,
    count: (starts[i + 1] ?? units.length) - from,
  }));
}

/** A longest common subsequence of two lists of the given lengths, equal ends taken first. */
function commonOf(olds: number, nexts: number, same: (i: number, j: number) => boolean): readonly Pair[] {
  const shorter = Math.min(olds, nexts);
  let head = 0;
  while (head < shorter && same(head, head)) head++;
  let tail = 0;
  while (tail < shorter - head && same(olds - 1 - tail, nexts - 1 - tail)) tail++;
  const middle = longestCommon(olds - head - tail, nexts - head - tail, (i, j) => same(head + i, head + j));
  return [
    ...Array.from({ length: head }, (_, i): Pair => [i, i]),
    ...middle.map(([i, j]): Pair => [head + i, head + j]),
    ...Array.from({ length: tail }, (_, i): Pair => [olds - tail + i, nexts - tail + i]),
  ];
}

function longestCommon(n: number, m: number, same: (i: number, j: number) => boolean): readonly Pair[] {
  const lengths = Array.from({ length: n + 1 }, () => new Uint32Array(m + 1));
  for (let i = n - 1; i >= 0; i--)
    for (let j = m - 1; j >= 0; j--)
      lengths[i]![j] = same(i, j) ? lengths[i + 1]![j + 1]! + 1 : Math.max(lengths[i + 1]![j]!, lengths[i]![j + 1]!);
  const pairs: Pair[] = [];
  for (let i = 0, j = 0; i < n && j < m; ) {
    if (same(i, j)) pairs.push([i++, j++]);
    else if (lengths[i + 1]![j]! >= lengths[i]![j + 1]!) i++;
    else j++;
  }
  return pairs;
}
