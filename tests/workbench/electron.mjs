// The extension-host suite in a desktop editor: an installed one, else one that can be downloaded; where neither can be had, it says so and skips.
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { downloadAndUnzipVSCode, runTests } from '@vscode/test-electron';
import { root } from '../../scripts/support/steps.mjs';
import { demoFolder } from './support/beds.mjs';

const cachePath = join(root, '.cache/vscode-test');

/** Without a screen no window can be opened. */
const screen = process.platform !== 'linux' || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;

function ending(counts, why = '') {
  if (why !== '') console.log(why);
  console.log(`${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`);
  process.exit(counts.failed > 0 ? 1 : 0);
}

/** Path of an editor's program, or null. `BULLFIDDLE_VSCODE` names an installed one. */
async function editor() {
  const named = process.env.BULLFIDDLE_VSCODE;
  if (named) return existsSync(named) ? named : null;
  mkdirSync(cachePath, { recursive: true });
  return downloadAndUnzipVSCode({ version: '1.91.1', cachePath, timeout: 30_000 }).catch(() => null);
}

const skipped = { passed: 0, failed: 0, skipped: 1 };
if (!screen) ending(skipped, 'skipped: there is no screen to open an editor on');
const vscodeExecutablePath = await editor();
if (vscodeExecutablePath === null)
  ending(skipped, 'skipped: no VS Code is installed where BULLFIDDLE_VSCODE says, and none can be downloaded');
try {
  await runTests({
    vscodeExecutablePath,
    extensionDevelopmentPath: root,
    extensionTestsPath: join(root, 'tests/workbench/suite/index.cjs'),
    launchArgs: [demoFolder('electron'), '--disable-extensions', '--disable-workspace-trust'],
  });
  ending({ passed: 1, failed: 0, skipped: 0 });
} catch (error) {
  ending({ passed: 0, failed: 1, skipped: 0 }, error instanceof Error ? error.message : String(error));
}
