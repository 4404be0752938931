// Shared by the tests of arrangement/: tune text in, parts and plans out.
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, readPart } from '../../../server/src/arrangement/index.ts';
import type { BassPart, FileConfig } from '../../../server/src/arrangement/types.ts';
import { readScore } from '../../../server/src/score/index.ts';

/** A tune of the given fields (each a line) and body. */
export const tune = (fields: string, body: string): string => `X:1\nT:test\n${fields.split(' ; ').join('\n')}\n${body}\n`;

/** The first voice of the first tune as a bass part. */
export function bassPart(text: string, config: FileConfig = defaultConfig): BassPart {
  const book = readBook(text);
  const score = readScore(book.header, book.tunes[0]!.tree);
  const part = readPart(score, score.voices[0]!.id, config);
  if (part.kind !== 'bass') throw new Error('this voice is no bass part');
  return part;
}
