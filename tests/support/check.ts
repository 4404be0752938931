// Tune text with the findings marked under it: a line of carets and a code below the place, as a remark (`%`) or bare.
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig, planStage } from '../../server/src/arrangement/index.ts';
import type { FileConfig } from '../../server/src/arrangement/types.ts';
import { type Finding, findingsOf, headerFindings } from '../../server/src/checks/index.ts';
import { makeTables } from '../../server/src/fingering/index.ts';
import { lineIndex } from '../../server/src/text/line-index.ts';
import { shifted } from '../../server/src/text/span.ts';

const tables = makeTables(8 * 1024 * 1024);
const marker = /^[% ]*(\^+) ([a-z]+\.[a-z-]+)$/;

/** All findings of a text, with spans and edits relative to the text. */
export function findingsIn(text: string, config: FileConfig = defaultConfig): readonly Finding[] {
  const book = readBook(text);
  const tunes = book.tunes.flatMap(({ at }, index) =>
    findingsOf(planStage(book, index, config, tables), 'plan').map((one) => moved(one, at)),
  );
  return [...headerFindings(book, config), ...tunes];
}

const moved = (found: Finding, at: number): Finding => ({
  ...found,
  ...shifted(found, at),
  related: found.related.map((one) => ({ ...one, ...shifted(one, at) })),
  fixes: found.fixes.map(({ title, edits }) => ({ title, edits: edits.map((edit) => ({ ...edit, span: shifted(edit.span, at) })) })),
});

/** The text without its marks. */
export const unmarked = (text: string): string =>
  text
    .split('\n')
    .filter((line) => !marker.test(line))
    .join('\n');

/** The text with the findings that there are marked; equal to the given text when it was marked rightly. Only the first line of a place is marked. */
export function marked(text: string, config: FileConfig = defaultConfig): string {
  const plain = unmarked(text);
  const lines = plain.split('\n');
  const index = lineIndex(plain);
  const marks = findingsIn(plain, config).map(({ from, to, code }) => {
    const { line, character } = index.positionAt(from);
    const carets = Math.max(1, Math.min(to - from, lines[line]!.length - character));
    const lead = character === 0 ? '' : `%${' '.repeat(character - 1)}`;
    return { line, text: `${lead}${'^'.repeat(carets)} ${code}` };
  });
  return lines.flatMap((line, i) => [line, ...marks.filter((mark) => mark.line === i).map((mark) => mark.text)]).join('\n');
}

/** A tune of these music lines under a header; `fields` in the order given, `K:` last. */
export const tuneOf = (fields: string, music: string): string => `X:1\nT:Test\n${fields.split(' ; ').join('\n')}\n${music}\n`;
