// Errors on open tune collections against the list in the documentation, where each was read and judged by hand.
import { readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, it } from 'vitest';
import { readBook } from '../../server/src/abc/index.ts';
import { findingsIn } from '../support/check.ts';
import { corporaFolder, corporaHere, corpusFiles } from '../support/corpora.ts';

const page = readFileSync(join(import.meta.dirname, '../../server/docs/corpora-findings.md'), 'utf8');
const listed = [...page.matchAll(/^\| (.+?) \| (\d+) \| `(.+?)` \|/gm)].map(([, file, tune, code]) => `${file} ${tune} ${code}`);

it.skipIf(!corporaHere)('no error is found that is not judged there, and none is judged that is not found', () => {
  const found = corpusFiles().flatMap(({ path, text: bytes }) => {
    const text = bytes.replace(/^\uFEFF/, '');
    const { tunes } = readBook(text);
    return findingsIn(text)
      .filter(({ severity }) => severity === 'error')
      .map(({ from, code }) => {
        const tune = tunes.findLast(({ at }) => at <= from);
        return `${relative(corporaFolder, path)} ${/^X:\s*(\d+)/.exec(text.slice(tune?.at ?? 0))?.[1]} ${code}`;
      });
  });
  expect([...new Set(found)].toSorted()).toEqual(listed.toSorted());
});
