// The language server before a client that is not ours: Neovim's own, headless, on the tune of the demo book that no hand plays.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const cli = join(root, 'dist/cli.js');
const tunes = join(root, 'media/demo/ferrymans-dare.abc');
const here = existsSync(cli) && spawnSync('nvim', ['--version']).status === 0;

describe('Neovim', () => {
  it.skipIf(!here)('shows the same errors as the command line', () => {
    const args = ['--headless', '-u', 'NONE', '-i', 'NONE', '-n', '-c', `luafile ${join(root, 'tests/support/neovim.lua')}`, '-c', 'qa!'];
    const env = { ...process.env, TUNES: tunes, CLI: cli, NODE: process.execPath, CODE: 'reach.too-wide' };
    const shown = spawnSync('nvim', args, { env, encoding: 'utf8', timeout: 50_000, stdio: ['ignore', 'pipe', 'pipe'] });
    const lines = shown.stdout.split('\n').filter((line) => line.includes('\t'));
    const told = spawnSync(process.execPath, [cli, 'check', tunes, '--format', 'json'], { encoding: 'utf8' });
    const findings = told.stdout
      .split('\n')
      .filter(Boolean)
      .map((line) => JSON.parse(line));
    expect(findings.filter((one) => one.severity === 'error')).not.toEqual([]);
    for (const one of findings.filter((finding) => finding.severity === 'error')) {
      expect(lines).toContain(`${one.code}\t${one.line}\t${one.message}`);
    }
  });
});
