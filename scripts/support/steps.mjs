// Runs the steps of a long command one after another: says what runs, how long it took, and how it ended.
import { spawn } from 'node:child_process';
import { resolve } from 'node:path';

export const root = resolve(import.meta.dirname, '../..');

/** Variables of a running npm script that would mislead a second npm in another folder. */
const misleading = /^npm_(package|lifecycle|config_(local_)?prefix)/;

/** The environment without what the surrounding `npm run` put there about itself. */
export function cleanEnv(more = {}) {
  const kept = Object.entries(process.env).filter(([name]) => !misleading.test(name));
  return { ...Object.fromEntries(kept), ...more };
}

/**
 * Runs a program to its end.
 * @returns {Promise<{ code: number, out: string }>} exit code (127 if it could not be started) and, with `quiet`, all it printed
 */
export function run(program, args, { cwd = root, env = {}, quiet = false } = {}) {
  return new Promise((done) => {
    const stdio = quiet ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit'];
    const child = spawn(program, args, { cwd, env: cleanEnv(env), stdio });
    let out = '';
    child.stdout?.on('data', (chunk) => (out += chunk));
    child.stderr?.on('data', (chunk) => (out += chunk));
    child.on('error', (error) => done({ code: 127, out: `${out}${error.message}\n` }));
    child.on('close', (code) => done({ code: code ?? 1, out }));
  });
}

/** Says that a step begins, runs it, says how long it took. `work` gives true for success; a throw is a failure with its message. */
export async function step(title, work) {
  const start = Date.now();
  console.log(`\n> ${title}`);
  let good = false;
  try {
    good = await work();
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
  }
  console.log(`  ${good ? 'done' : 'FAILED'} in ${((Date.now() - start) / 1000).toFixed(1)} s`);
  return good;
}

/** Runs a program quietly and shows what it printed only if it failed. */
export async function quietly(program, args, options = {}) {
  const result = await run(program, args, { ...options, quiet: true });
  if (result.code !== 0) console.error(result.out);
  return result.code === 0;
}
