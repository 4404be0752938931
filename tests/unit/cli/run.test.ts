// One call of the command line: help, version, wrong usage, faults.
import { describe, expect, it } from 'vitest';
import type { Command } from '../../../server/src/cli/command.ts';
import { runCommandLine, usageError } from '../../../server/src/cli/run.ts';
import { readSources } from '../../../server/src/cli/sources.ts';
import { memoryIo } from '../../support/memory-io.ts';

const count: Command = {
  name: 'count',
  summary: 'Counts letters.',
  usage: 'bullfiddle count FILE...',
  async run(args, io) {
    if (args.length === 0) return usageError(count, 'Name at least one file.', io);
    const { sources, failed } = await readSources(args, io, 'given.abc');
    for (const { name, text } of sources) io.out(`${name} ${text.length}\n`);
    return failed ? 2 : 0;
  },
};
const broken: Command = {
  name: 'broken',
  summary: 'Fails.',
  usage: 'bullfiddle broken',
  run: async () => {
    throw new Error('inner trouble');
  },
};

async function call(args: string[], files: Record<string, string> = {}) {
  const io = memoryIo(files);
  const code = await runCommandLine(args, io, [count, broken], '1.2.3');
  return { code, ...io.said };
}

describe('runCommandLine', () => {
  it('gives version and help on standard output', async () => {
    expect(await call(['--version'])).toEqual({ code: 0, out: 'bullfiddle 1.2.3\n', err: '' });
    expect((await call(['--help'])).out).toContain('count   Counts letters.');
    for (const args of [
      ['help', 'count'],
      ['count', '--help'],
      ['count', 'x', '-h'],
    ]) {
      expect(await call(args)).toEqual({ code: 0, out: 'Counts letters.\n\nUsage: bullfiddle count FILE...\n', err: '' });
    }
  });

  it('calls missing and unknown commands wrong usage, on standard error', async () => {
    expect((await call([])).code).toBe(2);
    expect((await call(['coutn'])).err).toMatch(/^bullfiddle: no command "coutn"\. Did you mean "count"\?/);
    expect(await call(['--played'])).toMatchObject({ code: 2, out: '' });
    expect(await call(['count'])).toEqual({
      code: 2,
      out: '',
      err: 'bullfiddle count: Name at least one file.\nUsage: bullfiddle count FILE...\n',
    });
  });

  it('reports a file it cannot read and does the rest', async () => {
    const result = await call(['count', 'gone.abc', 'set', '-'], { 'set/b.abc': 'X', 'set/a.abc': 'XX', 'set/notes.txt': '', '-': 'XXX' });
    expect(result).toEqual({
      code: 2,
      out: 'set/a.abc 2\nset/b.abc 1\ngiven.abc 3\n',
      err: 'gone.abc: no such file or folder; look at the name.\n',
    });
  });

  it('turns a fault into a message and exit code 2', async () => {
    const result = await call(['broken']);
    expect(result.code).toBe(2);
    expect(result.err).toMatch(/stopped by a fault of its own[\s\S]*inner trouble/);
  });
});
