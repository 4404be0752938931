// Included files on the command line: found beside the tune file or below it, never outside; what fails is a finding.
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { check } from '../../../server/src/cli/commands/check.ts';
import { finger } from '../../../server/src/cli/commands/finger.ts';
import { notes } from '../../../server/src/cli/commands/notes.ts';
import { processIo } from '../../../server/src/cli/io.ts';
import { readSources } from '../../../server/src/cli/sources.ts';
import { memoryIo } from '../../support/memory-io.ts';

const tune = (name: string) => `X:1\nT:t\nM:4/4\nL:1/4\nI:abc-include ${name}\nK:C clef=bass\n~E,F,G,A,|\n`;
const including = (name: string, files: Readonly<Record<string, string>>) => memoryIo({ 'tunes/a.abc': tune(name), ...files });

it('brings in what the file and the files that it includes define', async () => {
  const io = including('"sub/one.abh"', { 'tunes/sub/one.abh': 'I:abc-include two.abh\n', 'tunes/two.abh': 'U:~=!slide!\nm:~E,=C,\n' });
  expect(await notes.run(['tunes/a.abc'], io)).toBe(0);
  const { voices, errors } = JSON.parse(io.said.out);
  expect([voices[0].notes.map(({ midi }: { midi: number[] }) => midi[0]), errors]).toEqual([[48, 53, 55, 57], []]);
});

it('reaches the declarations of a bass part', async () => {
  const text = 'X:1\nT:t\nL:1/4\nI:abc-include bass.abh\nK:C\nE,A,|\n';
  const stops = async (declared: string) => {
    const io = memoryIo({ 'a.abc': text, 'bass.abh': declared });
    await finger.run(['a.abc'], io);
    return io.said.out === '' ? null : JSON.parse(io.said.out).notes.length;
  };
  expect(await stops('I:bullfiddle part=bass\n')).toBe(2);
  expect(await stops('% nothing\n')).toBeNull();
});

const messagesOf = async (name: string, files: Readonly<Record<string, string>>): Promise<readonly string[]> => {
  const io = including(name, files);
  await check.run(['tunes/a.abc', '--format', 'json'], io);
  const found = io.said.out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
  return found.filter(({ code }) => code === 'text.include-failed').map(({ line, message }) => `${line}: ${message}`);
};

it.each(['gone.abh', '../secret.abh', 'sub/../../secret.abh', '/book/secret.abh'])('%s is told as not readable', async (name) => {
  expect(await messagesOf(name, { 'secret.abh': 'T:secret\n' })).toEqual([
    `5: ${name} cannot be read. Check its name; it must lie in the folder.`,
  ]);
});

it('tells of circles and of files that are too long', async () => {
  expect(await messagesOf('a.abh', { 'tunes/a.abh': 'I:abc-include b.abh\n', 'tunes/b.abh': 'I:abc-include a.abh\n' })).toEqual([
    '5: a.abh includes itself. Take one of the lines out.',
  ]);
  expect(await messagesOf('long.abh', { 'tunes/long.abh': '%\n'.repeat(100_001) })).toEqual(['5: long.abh is too long to be included.']);
});

it('follows no link out of the folder', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'includes-'));
  try {
    await mkdir(join(folder, 'tunes'));
    await writeFile(join(folder, 'secret.abh'), 'T:secret\n');
    await writeFile(join(folder, 'tunes/own.abh'), 'T:own\n');
    await symlink(join(folder, 'secret.abh'), join(folder, 'tunes/link.abh'));
    await writeFile(join(folder, 'tunes/a.abc'), 'I:abc-include link.abh\nI:abc-include own.abh\nX:1\nK:C\n');
    const { sources } = await readSources([join(folder, 'tunes/a.abc')], processIo(''), null);
    expect(['link.abh', 'own.abh'].map((name) => sources[0]!.include(name))).toEqual([null, 'T:own\n']);
  } finally {
    await rm(folder, { recursive: true });
  }
});
