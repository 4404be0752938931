// Canonical spacing: notes of a beat together, a space between beats, bars of voices lined up. Only white space changes, and only where the text then reads as the same music.
import { readBook } from '../abc/index.ts';
import type { PlacedLine } from '../abc/tree/tree.ts';
import type { ScoreStage } from '../arrangement/types.ts';
import { readScore } from '../score/index.ts';
import { applyEdits, type Edit, type Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { alignedLines } from './format/align.ts';
import { beatGroups } from './format/groups.ts';
import { spacedLine } from './format/spacing.ts';
import { bareText } from './shared/locate.ts';
import { sameMusic } from './shared/same-music.ts';

/** The question is the stretch to format, or null for the whole tune. Edits touch white space alone. */
export const format: Feature<'score', Span | null, readonly Edit[]> = {
  needs: 'score',
  answer(stage, range) {
    const wanted = lineEdits(stage).filter(
      ({ from, to }) => range === null || (from < range.to && range.from < to) || (from === to && from === range.from),
    );
    if (readsTheSame(stage, wanted)) return edits(wanted);
    const safe = wanted.filter((one) => readsTheSame(stage, [one]));
    return readsTheSame(stage, safe) ? edits(safe) : [];
  },
};

interface LineEdit extends Span {
  readonly text: string;
  readonly insert: string;
}

function lineEdits(stage: ScoreStage): readonly LineEdit[] {
  const { lines } = stage.tree;
  const groups = beatGroups(stage.score);
  const spaced = alignedLines(
    lines,
    lines.map((placed) => tidied(placed, groups)),
  );
  return lines.flatMap((placed, i) => {
    const text = bareText(placed.line);
    const insert = spaced[i]!;
    return insert === text ? [] : [{ from: placed.at, to: placed.at + text.length, text, insert }];
  });
}

/** A line without white space at its end, a music line spaced by beats. */
function tidied(placed: PlacedLine, groups: ReadonlyMap<number, string>): string {
  const text = bareText(placed.line);
  switch (placed.line.kind) {
    case 'music':
      return spacedLine(placed, groups) ?? text;
    case 'free':
    case 'typeset':
      return text;
    case 'field':
    case 'lyrics':
    case 'symbols':
    case 'directive':
    case 'field-continuation':
    case 'comment':
    case 'blank':
      return text.replace(/[ \t]+$/, '');
  }
}

function readsTheSame(stage: ScoreStage, wanted: readonly LineEdit[]): boolean {
  if (wanted.length === 0) return true;
  const header = stage.book.header.lines.map(({ line }) => line.text).join('');
  const text = applyEdits(
    stage.text,
    wanted.map(({ from, to, insert }) => ({ span: { from, to }, insert })),
  );
  const again = readBook(header + text);
  const tune = again.tunes[0];
  return again.tunes.length === 1 && tune !== undefined && sameMusic(stage.score, readScore(again.header, tune.tree));
}

/** Edits of the white space alone, so that carets and marks in the text stay where they are. */
function edits(lines: readonly LineEdit[]): readonly Edit[] {
  return lines.flatMap(({ from, text, insert }) =>
    whiteSpaceEdits(text, insert).map((edit) => ({ span: { from: from + edit.span.from, to: from + edit.span.to }, insert: edit.insert })),
  );
}

/** Both texts are equal but for white space. */
function whiteSpaceEdits(before: string, after: string): readonly Edit[] {
  const found: Edit[] = [];
  let b = 0;
  let a = 0;
  while (b < before.length || a < after.length) {
    const from = b;
    const start = a;
    while (/\s/.test(before[b] ?? '')) b++;
    while (/\s/.test(after[a] ?? '')) a++;
    const insert = after.slice(start, a);
    if (before.slice(from, b) !== insert) found.push({ span: { from, to: b }, insert });
    if (b < before.length) b++;
    if (a < after.length) a++;
  }
  return found;
}
