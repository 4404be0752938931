// A folder checked: up to 10,000 tunes (the corpora, where at hand, and the demo book, in ever new keys) on all cores against one core and a plain read, and the memory it takes. Prints figures and ratios; judges nothing.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig, partStage, transposeEdits } from '../../server/src/arrangement/index.ts';
import { applyEdits, shifted } from '../../server/src/text/span.ts';
import { buildCommand } from '../support/command.ts';
import { corpusFiles } from '../support/corpora.ts';
import { demoBooks } from '../support/merging.ts';

const counts = [100, 1_000, 5_000, 10_000];
const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-bench-'));
const command = join(folder, 'bullfiddle.cjs');

/** Before the command runs: one core if told so; at its end its largest memory, and what it still holds, in megabytes. */
const hook = join(folder, 'hook.cjs');
const hookText = `
const { isMainThread } = require('node:worker_threads');
const { writeFileSync } = require('node:fs');
if (process.env.ONE_CORE) require('node:os').availableParallelism = () => 1;
const held = () => (gc(), process.memoryUsage().heapUsed / 2 ** 20);
if (isMainThread)
  process.on('exit', () => writeFileSync(process.env.MEMORY, JSON.stringify({ peak: process.resourceUsage().maxRSS / 1024, held: held() })));
`;

function inKey(text: string, semitones: number): { readonly text: string; readonly tunes: number } {
  const book = readBook(text);
  const edits = book.tunes.flatMap(({ at }, index) =>
    transposeEdits(partStage(book, index, defaultConfig), semitones).edits.map((edit) => ({ ...edit, span: shifted(edit.span, at) })),
  );
  return { text: applyEdits(text, edits), tunes: book.tunes.length };
}

/** Writes files of at least `count` tunes; the tunes written and their size in bytes. */
function writeTunes(into: string, count: number): { readonly tunes: number; readonly bytes: number } {
  mkdirSync(into);
  const texts = [...demoBooks, ...corpusFiles().map(({ text }) => text)];
  let tunes = 0;
  let bytes = 0;
  for (let i = 0; tunes < count; i++) {
    const round = Math.floor(i / texts.length);
    const moved = inKey(texts[i % texts.length]!, (round % 12) - 5);
    writeFileSync(join(into, `${String(i).padStart(6, '0')}.abc`), moved.text);
    tunes += moved.tunes;
    bytes += Buffer.byteLength(moved.text);
  }
  return { tunes, bytes };
}

interface Run {
  readonly ms: number;
  readonly peak: number;
  readonly held: number;
  readonly out: string;
}

function check(tunes: string, cores: 'one' | 'all'): Run {
  const memory = join(folder, 'memory.json');
  const from = performance.now();
  const { stdout, status } = spawnSync(process.execPath, ['--expose-gc', '--require', hook, command, 'check', tunes, '--format', 'json'], {
    env: { ...process.env, MEMORY: memory, ...(cores === 'one' ? { ONE_CORE: '1' } : {}) },
    encoding: 'utf8',
    maxBuffer: 1e9,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const ms = performance.now() - from;
  if (status !== 0 && status !== 1) throw new Error(`the check ended with ${status}`);
  return { ms, ...JSON.parse(readFileSync(memory, 'utf8')), out: stdout };
}

function plainRead(tunes: string): number {
  const from = performance.now();
  for (const name of readdirSync(tunes)) readFileSync(join(tunes, name));
  return performance.now() - from;
}

const seconds = (ms: number): string => `${(ms / 1000).toFixed(2)} s`;

try {
  await buildCommand(command);
  writeFileSync(hook, hookText);
  for (const count of counts) {
    const tunes = join(folder, String(count));
    const written = writeTunes(tunes, count);
    const [one, all] = [check(tunes, 'one'), check(tunes, 'all')];
    const read = plainRead(tunes);
    console.log(
      `${written.tunes} tunes in ${readdirSync(tunes).length} files (${(written.bytes / 1e6).toFixed(1)} MB), ${one.out.split('\n').length - 1} findings, ${one.out === all.out ? 'the same' : 'NOT THE SAME'} on one core and on all (${availableParallelism()})`,
    );
    console.log(
      `  one core ${seconds(one.ms)}, all ${seconds(all.ms)}: ${(one.ms / all.ms).toFixed(2)} times as fast; a plain read ${seconds(read)}, ${(all.ms / read).toFixed(0)} times faster`,
    );
    console.log(
      `  peak memory: one core ${one.peak.toFixed(0)} MB, all ${all.peak.toFixed(0)} MB; held at the end by one core ${one.held.toFixed(1)} MB`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
