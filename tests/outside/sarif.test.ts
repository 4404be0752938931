// SARIF output against the schema of the OASIS standard (Static Analysis Results Interchange Format 2.1.0), where that is at hand.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv-draft-04';
import { expect, it } from 'vitest';
import { check } from '../../server/src/cli/commands/check.ts';
import { tuneOf } from '../support/check.ts';
import { memoryIo } from '../support/memory-io.ts';
import { schemaFolder } from '../support/schemas.ts';

const fields = 'M:4/4 ; L:1/4 ; K:G clef=bass';
const files = {
  'tunes/one #1?.abc': tuneOf(fields, 'G,, B,, D, G,|A, G,|G,4|'),
  'tunes/two.abc': tuneOf(fields, '!sulC!G, (F,!0!G,) A,|G,2-A,2|'),
  'tunes/three.abc': tuneOf(fields, 'G, D, G, D,|'),
};

async function sarif(paths: readonly string[]) {
  const io = memoryIo(files);
  await check.run([...paths, '--format', 'sarif'], io);
  return JSON.parse(io.said.out);
}

it.skipIf(schemaFolder === null)('validates against the schema, with findings and without', async () => {
  const schema = JSON.parse(readFileSync(join(schemaFolder!, 'sarif-2.1.0/sarif-schema-2.1.0.json'), 'utf8'));
  const validate = new Ajv({ strict: false, validateFormats: false }).compile(schema);
  for (const paths of [['tunes'], ['tunes/three.abc']]) {
    validate(await sarif(paths));
    expect(validate.errors).toBe(null);
  }
  expect(validate({ version: '2.1.0', runs: [{}] })).toBe(false);
});

it('points each result to its rule, file, region and fix', async () => {
  const log = await sarif(['tunes']);
  const [{ tool, results, columnKind }] = log.runs;
  expect(log.version).toBe('2.1.0');
  expect(columnKind).toBe('utf16CodeUnits');
  expect(results.length).toBeGreaterThan(3);
  for (const result of results) {
    expect(tool.driver.rules[result.ruleIndex].id).toBe(result.ruleId);
    expect(['error', 'warning', 'note']).toContain(result.level);
    const { artifactLocation, region } = result.locations[0].physicalLocation;
    const text = files[decodeURIComponent(artifactLocation.uri) as keyof typeof files];
    const line = text.split('\n')[region.startLine - 1]!;
    expect(line.slice(region.startColumn - 1, region.endColumn - 1)).toBe(
      text.slice(region.charOffset, region.charOffset + region.charLength),
    );
    expect(artifactLocation.uri).not.toMatch(/[#? ]/);
  }
  expect(results.some((result: { fixes?: unknown }) => result.fixes !== undefined)).toBe(true);
});
