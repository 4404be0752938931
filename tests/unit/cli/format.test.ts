// `format` changes files in place, or only says which would change.
import { describe, expect, it } from 'vitest';
import { format } from '../../../server/src/cli/commands/format.ts';
import { memoryIo } from '../../support/memory-io.ts';

const head = 'X:1\nM:4/4\nL:1/8\nK:D clef=bass\n';
const loose = `${head}D, E,F,G, A,4 |\n`;
const tidy = `${head}D,E,F,G, A,4|\n`;

describe('format', () => {
  it('writes the file only where it changes', async () => {
    const io = memoryIo({ 'book/a.abc': loose, 'book/b.abc': tidy });
    expect(await format.run(['book'], io)).toBe(0);
    expect(io.files.get('book/a.abc')).toBe(tidy);
    expect(io.said).toEqual({ out: '', err: 'book/a.abc: formatted.\n' });
  });
  it('checks without writing', async () => {
    const io = memoryIo({ 'book/a.abc': loose, 'book/b.abc': tidy });
    expect(await format.run(['--check', 'book'], io)).toBe(1);
    expect(io.said.out).toBe('book/a.abc\n');
    expect(io.files.get('book/a.abc')).toBe(loose);
    expect(await format.run(['--check', 'book/b.abc'], io)).toBe(0);
  });
  it('gives standard input back on standard output', async () => {
    const io = memoryIo({ '-': loose });
    expect(await format.run(['-'], io)).toBe(0);
    expect(io.said.out).toBe(tidy);
  });
  it('goes on after a file that cannot be read, and ends with 2', async () => {
    const io = memoryIo({ 'a.abc': loose });
    expect(await format.run(['missing.abc', 'a.abc'], io)).toBe(2);
    expect(io.files.get('a.abc')).toBe(tidy);
  });
});
