// Findings of tune files as reported: offsets into the file, line and column from 1, the tune and bar they stand in.
import { planStage } from '../../arrangement/index.ts';
import type { FileConfig } from '../../arrangement/types.ts';
import { type Finding, findingsOf, headerFindings, type Severity } from '../../checks/index.ts';
import type { TableCache } from '../../fingering/index.ts';
import { barNumberAt } from '../../score/bar-numbers.ts';
import type { Score } from '../../score/types.ts';
import { lineIndex } from '../../text/line-index.ts';
import { bookOf, type Source } from '../sources.ts';

/** One finding of the public JSON (design: `check`). */
export interface Reported {
  readonly file: string;
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** UTF-16 offsets into the file's text, half-open. */
  readonly from: number;
  readonly to: number;
  /** From 1; columns count UTF-16 units. */
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  /** Number of the tune (X:), null before the first tune or without a number. */
  readonly tune: number | null;
  /** From 1 (a pickup is bar 0); null outside the music. */
  readonly bar: number | null;
  readonly fix?: {
    readonly title: string;
    readonly edits: readonly { readonly from: number; readonly to: number; readonly insert: string }[];
  };
}

/** All findings of a file, in the order of its text. */
export function reportOf(source: Source, config: FileConfig, tables: TableCache): readonly Reported[] {
  const book = bookOf(source);
  const placed = placerOf(source);
  const header = headerFindings(book, config).map((found) => placed(found, 0, null));
  const tunes = book.tunes.flatMap((tune, index) => {
    const stage = planStage(book, index, config, tables);
    return findingsOf(stage, 'plan').map((found) => placed(found, tune.at, stage.score));
  });
  return [...header, ...tunes];
}

function placerOf({ name, text }: Source): (found: Finding, at: number, score: Score | null) => Reported {
  const lines = lineIndex(text);
  return (found, at, score) => {
    const start = lines.positionAt(at + found.from);
    const end = lines.positionAt(at + found.to);
    const [fix] = found.fixes;
    return {
      file: name,
      code: found.code,
      severity: found.severity,
      message: found.message,
      from: at + found.from,
      to: at + found.to,
      line: start.line + 1,
      column: start.character + 1,
      endLine: end.line + 1,
      endColumn: end.character + 1,
      tune: score?.number ?? null,
      bar: score === null ? null : barNumberAt(score, found.from),
      ...(fix === undefined
        ? {}
        : { fix: { title: fix.title, edits: fix.edits.map(({ span, insert }) => ({ from: at + span.from, to: at + span.to, insert })) } }),
    };
  };
}
