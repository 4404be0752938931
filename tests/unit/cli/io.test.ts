// Reading and writing for real: decoding, folders, whole files only, plain fault messages.
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeText } from '../../../server/src/cli/decode.ts';
import { processIo } from '../../../server/src/cli/io.ts';

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);

describe('decodeText', () => {
  it('reads UTF-8 and leaves a byte-order mark out', () => {
    expect(decodeText(new TextEncoder().encode('\uFEFFT:Žluť\n'))).toEqual({ text: 'T:Žluť\n', warning: null });
  });
  it('reads other bytes as Latin-1 and says where they begin', () => {
    const decoded = decodeText(bytes(88, 13, 10, 84, 58, 0xe9, 10));
    expect(decoded.text).toBe('X\r\nT:é\n');
    expect(decoded.warning).toBe('line 2 is not UTF-8, so the file is read as Latin-1; save it as UTF-8.');
  });
  it('warns of a character cut off at the end', () => {
    expect(decodeText(bytes(88, 10, 0xc5)).warning).toMatch(/^line 2 /);
  });
  it('refuses what is no text', () => {
    expect(() => decodeText(bytes(0xff, 0xfe, 88, 0))).toThrow('this file is UTF-16; save it as UTF-8.');
    expect(() => decodeText(bytes(88, 10, 10, 0, 1))).toThrow('this is not a text file (a zero byte in line 3).');
  });
});

describe('processIo', () => {
  let folder = '';
  const io = processIo('');
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'bullfiddle-io-'));
    await mkdir(join(folder, 'set/.hidden'), { recursive: true });
    await writeFile(join(folder, 'set/b.abc'), 'X:1');
    await writeFile(join(folder, 'set/.hidden/c.abc'), 'X:1');
    await writeFile(join(folder, 'a.ABC'), 'X:1');
    await writeFile(join(folder, 'a.txt'), 'X:1');
    await symlink(folder, join(folder, 'set/round'));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it('lists tune files of a folder in order, not following links to folders', async () => {
    expect(await io.list(folder)).toEqual([join(folder, 'a.ABC'), join(folder, 'set/b.abc')]);
    expect(await io.list(join(folder, 'a.txt'))).toEqual([join(folder, 'a.txt')]);
  });

  it('explains what cannot be read', async () => {
    await expect(io.read(join(folder, 'none.abc'))).rejects.toThrow('no such file or folder; look at the name.');
    await expect(io.read(folder)).rejects.toThrow('this is a folder; name a file.');
  });

  it('writes whole files into new folders and leaves nothing half done', async () => {
    const out = join(folder, 'new/deep');
    await io.write(join(out, 'page.svg'), '<svg/>');
    expect(await readFile(join(out, 'page.svg'), 'utf8')).toBe('<svg/>');
    await mkdir(join(out, 'taken'));
    await expect(io.write(join(out, 'taken'), 'x')).rejects.toThrow();
    await expect(io.write(join(folder, 'a.txt/x.svg'), 'x')).rejects.toThrow('a part of this path is a file, not a folder.');
    expect((await readdir(out)).sort()).toEqual(['page.svg', 'taken']);
  });

  it('writes bytes as they come, and leaves nothing where they break off', async () => {
    const out = join(folder, 'pieces');
    const pieces = async function* (broken: boolean) {
      yield bytes(1, 2);
      if (broken) throw new Error('a page failed');
      yield bytes(3);
    };
    await io.write(join(out, 'whole.pdf'), pieces(false));
    await expect(io.write(join(out, 'half.pdf'), pieces(true))).rejects.toThrow('a page failed');
    expect(await readdir(out)).toEqual(['whole.pdf']);
    expect([...(await readFile(join(out, 'whole.pdf')))]).toEqual([1, 2, 3]);
  });
});
