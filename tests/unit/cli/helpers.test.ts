// Checking on several threads: the same output as on one, in the same order, whatever dies or closes on the way.
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lostFile } from '../../../server/src/cli/check-file.ts';
import type { Io } from '../../../server/src/cli/command.ts';
import { check } from '../../../server/src/cli/commands/check.ts';
import { startHelper } from '../../../server/src/cli/helpers.ts';
import { inOrder } from '../../../server/src/cli/in-order.ts';
import { processIo } from '../../../server/src/cli/io.ts';
import { tuneOf } from '../../support/check.ts';
import { buildCommand } from '../../support/command.ts';
import { randomOf } from '../../support/random-task.ts';

const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-helpers-'));
const command = join(folder, 'bullfiddle.cjs');
const tunes = join(folder, 'tunes');
const fields = 'M:4/4 ; L:1/4 ; K:G clef=bass';
const remarks = '% a remark that takes room\n'.repeat(20);
const tuneTexts = [
  tuneOf(fields, 'G,, B,, D, G,|'),
  tuneOf(fields, 'G,, B,, D, G,|A, G,|G,4|'),
  tuneOf(fields, '!sulC!G, (F,!0!G,) A,|G,2-A,2|'),
];

beforeAll(async () => {
  mkdirSync(tunes);
  writeFileSync(join(tunes, 'bullfiddle.json'), '{ "tempoo": 1 }');
  for (let i = 0; i < 150; i++)
    writeFileSync(join(tunes, `${String(i).padStart(3, '0')}.abc`), `${tuneTexts[i % 3]}${remarks}%é\n`, i % 50 === 7 ? 'latin1' : 'utf8');
  symlinkSync(join(folder, 'nowhere'), join(tunes, '100-gone.abc'));
  writeFileSync(join(tunes, '110-picture.abc'), Uint8Array.from([0x89, 0x50, 0, 0]));
  await buildCommand(command);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function checked(threads: number, args: readonly string[], changes: Partial<Io> = {}) {
  const said = { out: '', err: '', helpers: 0 };
  const err = (text: string): void => {
    said.err += text;
  };
  const io: Io = {
    ...processIo(command, err),
    out: (text) => {
      said.out += text;
    },
    terminal: false,
    helpers: (job) => {
      said.helpers = threads;
      return Array.from({ length: threads }, () => startHelper(command, job, lostFile));
    },
    ...changes,
  };
  return { code: await check.run([...args], io), ...said };
}

describe('many files', () => {
  it.each(['text', 'json', 'sarif', 'github'])('are told alike on one thread and on three, as %s', async (format) => {
    const one = await checked(0, [tunes, '--format', format]);
    const three = await checked(3, [tunes, '--format', format]);
    expect(three).toEqual({ ...one, helpers: 3 });
    expect(one.code).toBe(2);
  });
  it('are told in their order; what cannot be read is told, and the rest goes on', async () => {
    const { out, err } = await checked(2, [tunes, '--format', 'json']);
    const files = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line).file);
    expect(files).toEqual([...files].sort());
    expect(files.at(-1)).toContain('149.abc');
    expect(err.match(/bullfiddle\.json:1: /g)).toHaveLength(1);
    expect(err).toContain('100-gone.abc: no such file or folder');
    expect(err).toContain('110-picture.abc: this is not a text file');
    expect(err.match(/is not UTF-8/g)).toHaveLength(3);
  });
  it('share the work with no helper if they are few', async () => {
    const { helpers, code } = await checked(2, [join(tunes, '000.abc'), join(tunes, '001.abc')]);
    expect({ helpers, code }).toEqual({ helpers: 0, code: 1 });
  });
  it('show on a terminal how far the work is, and leave no trace of it', async () => {
    const { err } = await checked(2, [tunes], { terminal: true });
    expect(err).toContain('\r152 of 152 files\r\x1b[K');
    expect(err.split('\x1b[K').at(-1)).toMatch(/^\d+ errors, .* of 150 files\.\n$/);
  });
});

it('a reader that stops early ends the command quietly', async () => {
  const child = spawn(process.execPath, [command, 'check', tunes, '--format', 'json'], { stdio: ['ignore', 'pipe', 'pipe'] });
  let err = '';
  child.stderr.on('data', (bytes) => {
    err += bytes;
  });
  child.stdout.once('data', () => child.stdout.destroy());
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect([0, 2]).toContain(code);
  expect(err).not.toMatch(/EPIPE|Error|at .*:\d+:\d+/);
});

describe('a helper', () => {
  const program = join(folder, 'frail.cjs');
  const helper = () => startHelper<string, string>(program, 'job', (item, reason) => `lost ${item}: ${reason}`);
  beforeAll(() =>
    writeFileSync(
      program,
      `const { parentPort, workerData } = require('node:worker_threads');
       parentPort.on('message', (items) => {
         if (items.includes('exit')) process.exit(3);
         if (items.includes('throw')) throw new Error('inner trouble');
         parentPort.postMessage(items.map((item) => workerData + ' ' + item));
       });`,
    ),
  );
  it('that dies loses the item that killed it, and no other', async () => {
    const frail = helper();
    expect(await frail.run(['a', 'exit', 'b'])).toEqual(['job a', 'lost exit: the thread ended with code 3', 'job b']);
    expect(await frail.run(['throw', 'c'])).toEqual(['lost throw: inner trouble', 'job c']);
    expect(await frail.run(['d'])).toEqual(['job d']);
    frail.stop();
  });
  it('that dies goes on with what was asked of it meanwhile', async () => {
    const frail = helper();
    const all = await Promise.all([frail.run(['a', 'throw']), frail.run(['b']), frail.run(['exit']), frail.run(['c', 'd'])]);
    frail.stop();
    expect(all).toEqual([
      ['job a', 'lost throw: inner trouble'],
      ['job b'],
      ['lost exit: the thread ended with code 3'],
      ['job c', 'job d'],
    ]);
  });
  it('that cannot start says so of each item', async () => {
    const [lost] = await startHelper<string, string>(join(folder, 'none.cjs'), '', (_, reason) => reason).run(['a']);
    expect(lost).toContain('none.cjs');
  });
});

describe('inOrder', () => {
  it('hands items out in order, gives results in order, and keeps all workers busy without running far ahead', async () => {
    const random = randomOf(3);
    const begun: number[] = [];
    let running = 0;
    let most = 0;
    const work = async (item: number): Promise<number> => {
      begun.push(item);
      most = Math.max(most, ++running);
      for (let turns = Math.floor(random() * 9); turns > 0; turns--) await null;
      running--;
      return item * 2;
    };
    const items = Array.from({ length: 500 }, (_, i) => i);
    const results: number[] = [];
    for await (const result of inOrder(items, [work, work, work])) {
      results.push(result);
      expect(begun.length - results.length).toBeLessThan(3 * 16);
    }
    expect(results).toEqual(items.map((item) => item * 2));
    expect(begun).toEqual(items);
    expect(most).toBe(3);
  });
});
