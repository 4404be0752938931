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

/** The question is the stretch to format, or null for the whole tune. Edits touch white space alone, so that carets and marks in the text stay where they are. */
export const format: Feature<'score', Span | null, readonly Edit[]> = {
  needs: 'score',
  answer(stage, range) {
    const byLine = lineEdits(stage).map((edits) => edits.filter((edit) => range === null || isInside(edit, range)));
    const safe = safeEdits(
      stage,
      byLine.filter((edits) => edits.length > 0),
    );
    return readsTheSame(stage, safe) ? safe : [];
  },
};

/** The edits of all lines that may be spaced anew without a change of the music; a bad line is found by halving. */
function safeEdits(stage: ScoreStage, byLine: readonly (readonly Edit[])[]): readonly Edit[] {
  const all = byLine.flat();
  if (readsTheSame(stage, all)) return all;
  if (byLine.length <= 1) return [];
  const middle = byLine.length >> 1;
  return [...safeEdits(stage, byLine.slice(0, middle)), ...safeEdits(stage, byLine.slice(middle))];
}

const isInside = ({ span }: Edit, range: Span): boolean => range.from <= span.from && span.to <= range.to;

function lineEdits(stage: ScoreStage): readonly (readonly Edit[])[] {
  const { lines } = stage.tree;
  const groups = beatGroups(stage.score);
  const spaced = alignedLines(
    lines,
    lines.map((placed) => tidied(placed, groups)),
  );
  return lines.map((placed, i) => whiteSpaceEdits(bareText(placed.line), spaced[i]!, placed.at));
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

function readsTheSame(stage: ScoreStage, edits: readonly Edit[]): boolean {
  if (edits.length === 0) return true;
  const header = stage.book.header.lines.map(({ line }) => line.text).join('');
  const again = readBook(header + applyEdits(stage.text, edits));
  const tune = again.tunes[0];
  return again.tunes.length === 1 && tune !== undefined && sameMusic(stage.score, readScore(again.header, tune.tree));
}

/** The edits from one line to another that differs from it in white space alone; `at` is where the line stands. */
function whiteSpaceEdits(before: string, after: string, at: number): readonly Edit[] {
  const found: Edit[] = [];
  let b = 0;
  let a = 0;
  while (b < before.length || a < after.length) {
    const from = b;
    const start = a;
    while (isSpace(before[b])) b++;
    while (isSpace(after[a])) a++;
    const insert = after.slice(start, a);
    if (before.slice(from, b) !== insert) found.push({ span: { from: at + from, to: at + b }, insert });
    if (b < before.length) b++;
    if (a < after.length) a++;
  }
  return found;
}

const isSpace = (sign: string | undefined): boolean => sign === ' ' || sign === '\t';
