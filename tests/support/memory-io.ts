// A command line without a process: files in a map, output kept in strings.
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Io } from '../../server/src/cli/command.ts';

export interface MemoryIo extends Io {
  readonly files: Map<string, string | Uint8Array>;
  readonly said: { out: string; err: string };
}

/** Paths are plain keys joined by `/`; `-` is standard input; a name ending in `/` or a prefix of others is a folder. */
export function memoryIo(files: Readonly<Record<string, string>> = {}): MemoryIo {
  const kept = new Map<string, string | Uint8Array>(Object.entries(files));
  const said = { out: '', err: '' };
  const io: MemoryIo = {
    files: kept,
    said,
    cwd: '/book',
    async read(path) {
      const found = kept.get(path) ?? kept.get(path.replace(/^\/book\//, ''));
      if (found === undefined) throw new Error('no such file or folder; look at the name.');
      return typeof found === 'string' ? found : new TextDecoder().decode(found);
    },
    async list(path) {
      if (path === '-' || kept.has(path)) return [path];
      const inside = [...kept.keys()].filter((key) => key.startsWith(`${path}/`) && key.endsWith('.abc')).sort();
      if (inside.length === 0) throw new Error('no such file or folder; look at the name.');
      return inside;
    },
    async size(path) {
      return kept.get(path)?.length ?? 0;
    },
    helpers: () => [],
    async isInside() {
      return true;
    },
    async write(path, bytes) {
      kept.set(path, typeof bytes === 'string' || bytes instanceof Uint8Array ? bytes : await together(bytes));
    },
    asset: (name) => readFile(join(import.meta.dirname, '../../media', name)),
    async history() {
      return { version: 'abc1234', date: '2026-01-31' };
    },
    out: (text) => {
      said.out += text;
    },
    err: (text) => {
      said.err += text;
    },
    sayingTo: (err) => ({ ...io, err }),
    terminal: false,
  };
  return io;
}

async function together(pieces: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const all: Uint8Array[] = [];
  for await (const piece of pieces) all.push(piece);
  return Buffer.concat(all);
}
