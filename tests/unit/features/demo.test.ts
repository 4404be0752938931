// The demo book is what it is said to be: five tunes in three versions each, sound but for the one passage that no hand can play.
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { planStage, readConfigFile, resolveConfig } from '../../../server/src/arrangement/index.ts';
import type { PlanStage } from '../../../server/src/arrangement/types.ts';
import { findingsOf } from '../../../server/src/checks/index.ts';
import { headerOf } from '../../../server/src/features/headers.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';

const folder = resolve(import.meta.dirname, '../../../media/demo');
const configFile = readConfigFile(readFileSync(join(folder, 'bullfiddle.json'), 'utf8'));
const config = resolveConfig(configFile.config);
const tables = makeTables(8_000_000);
const texts = readdirSync(folder)
  .filter((name) => name.endsWith('.abc'))
  .map((name) => ({ name, text: readFileSync(join(folder, name), 'utf8') }));

const stagesOf = (text: string): readonly PlanStage[] => {
  const book = readBook(text);
  return book.tunes.map((_, i) => planStage(book, i, config, tables));
};

const grave = (stage: PlanStage) => findingsOf(stage, 'plan').filter((finding) => finding.severity !== 'info');

describe('demo book', () => {
  it('has five tunes, each as source, low and high version', () => {
    expect(texts).toHaveLength(5);
    for (const { name, text } of texts) {
      const headers = readBook(text).tunes.map(({ tree }) => headerOf(tree));
      expect(
        headers.map((header) => header.version),
        name,
      ).toEqual(['source', 'low', 'high']);
      expect(new Set(headers.map((header) => header.slug)).size, name).toBe(1);
    }
  });
  it('has a configuration without problems, with pupils by initials', () => {
    expect(configFile.problems).toEqual([]);
    expect([...configFile.config.players.keys()]).toEqual(['T.B.', 'R.K.', 'E.M.']);
  });
  it('has one error, whose fix takes it away', () => {
    const found = texts.flatMap(({ name, text }) =>
      stagesOf(text).flatMap((stage) => grave(stage).map((finding) => ({ name, stage, finding }))),
    );
    expect(found.map(({ name, finding }) => `${name} ${finding.severity} ${finding.code}`)).toEqual([
      'ferrymans-dare.abc error reach.too-wide',
    ]);
    const { stage, finding } = found[0]!;
    expect(finding.message).toMatch(/158 mm.*126 mm/);
    const mended = applyEdits(stage.text, finding.fixes[0]!.edits);
    expect(stagesOf(mended).flatMap(grave)).toEqual([]);
  });
});
