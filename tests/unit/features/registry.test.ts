// Every feature and every action of the folders is in its registry.
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { actions } from '../../../server/src/features/actions/index.ts';
import { features } from '../../../server/src/features/index.ts';

const folder = resolve(import.meta.dirname, '../../../server/src/features');

/** Names of exported values with a given type, in the files of a folder and its `completion` folder. */
function exported(type: RegExp, folders: readonly string[]): readonly string[] {
  const files = folders.flatMap((path) => readdirSync(path).flatMap((name) => (name.endsWith('.ts') ? [join(path, name)] : [])));
  return files.flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/^export const (\w+): (\w+)</gm)]
      .filter((match) => type.test(match[2]!))
      .map((match) => match[1]!),
  );
}

describe('registries', () => {
  it('hold every feature', () => {
    expect(Object.keys(features).sort()).toEqual([...exported(/^Feature$/, [folder, join(folder, 'completion')])].sort());
  });
  it('hold every action', () => {
    expect(actions).toHaveLength(exported(/^Action$/, [join(folder, 'actions')]).length);
  });
});
