// Packages the extension: dist/bullfiddle.vsix, without node_modules (all is bundled), and says how large it is.
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { quietly, root } from './support/steps.mjs';

export const vsix = join(root, 'dist/bullfiddle.vsix');

/** Goal of the design: under 2 MB. */
const mostBytes = 2_000_000;

/** Packages what dist/ holds; false with the tool's own words if it cannot. */
export async function packageExtension() {
  const vsce = join(root, 'node_modules/@vscode/vsce/vsce');
  const flags = ['package', '--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links', '--out', vsix];
  if (!(await quietly(process.execPath, [vsce, ...flags]))) return false;
  if (!existsSync(vsix)) return false;
  const { size } = statSync(vsix);
  console.log(`  dist/bullfiddle.vsix: ${(size / 1e6).toFixed(2)} MB (goal: under ${mostBytes / 1e6} MB)`);
  return size < mostBytes;
}

if (process.argv[1] === import.meta.filename) process.exitCode = (await packageExtension()) ? 0 : 1;
