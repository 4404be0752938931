// Shared by the tests of arrangement/: tune text in, parts and plans out.
import { readBook } from '../../../server/src/abc/index.ts';
import {
  type Arranged,
  type ArrangeRequest,
  type ArrangeTools,
  arrange,
  defaultConfig,
  planStage,
  readPart,
  scoreStage,
} from '../../../server/src/arrangement/index.ts';
import type { BassPart, FileConfig, PlanStage, ScoreStage } from '../../../server/src/arrangement/types.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
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

const tables = makeTables(8 * 1024 * 1024);

/** The plan stage of the first tune of a text. */
export const planned = (text: string, config: FileConfig = defaultConfig): PlanStage => planStage(readBook(text), 0, config, tables);

/** The first plan's places: `G4:1` is stop 4 of the G string with finger 1; double stops are joined by +. */
export const placesOf = (stage: PlanStage): string =>
  stage.fingered[0]!.plan.notes.map((note) => note.places.map((p) => `${p.string}${p.stop}:${p.finger}`).join('+')).join(' ');

/** Tools for arranging with the default player. */
export const tools: ArrangeTools = { read: readBook, tables, config: defaultConfig };

/** A tune of a book, read. */
export const stageOf = (text: string, index = 0): ScoreStage => scoreStage(readBook(text), index);

/** The text of an arranged version; fails with the reason if there is none. */
export function arranged(
  text: string,
  request: Partial<ArrangeRequest> & Pick<ArrangeRequest, 'version'>,
): Extract<Arranged, { kind: 'arranged' }> {
  const made = arrange(stageOf(text), { number: 2, keyShift: 0, tempo: null, thin: 'auto', pins: 'none', ...request }, tools);
  if (made.kind === 'impossible') throw new Error(made.message);
  return made;
}

/** What follows the key field. */
export const bodyOf = (text: string): string => text.slice(text.search(/^K:/m)).replace(/^.*\n/, '').trimEnd();
