// Brings what the project's commands need: npm packages everywhere, system tools where that is possible (root on Debian).
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { quietly, root, run } from './steps.mjs';

const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';

/** Whether node_modules holds what the lock file asks for. */
export function packagesFresh() {
  const installed = join(root, 'node_modules/.package-lock.json');
  if (!existsSync(installed)) return false;
  const have = JSON.parse(readFileSync(installed, 'utf8')).packages;
  const want = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  return Object.entries(want).every(([path, entry]) => path === '' || entry.optional || have[path]?.version === entry.version);
}

/** Installs the locked packages if they are missing or stale. */
export async function installPackages() {
  if (packagesFresh()) return true;
  return (await run(npm, ['ci', '--ignore-scripts', '--no-audit', '--no-fund'])).code === 0;
}

const onPath = (program) => (process.env.PATH ?? '').split(delimiter).some((folder) => folder !== '' && existsSync(join(folder, program)));

/** The first of these programs that is installed, else null. */
export const firstOnPath = (programs) => programs.find(onPath) ?? null;

/** Debian package by package: how to see whether it is there. `fonts` has no program, so its folder tells. */
const tools = {
  chromium: () => onPath('chromium'),
  'fonts-dejavu-core': () => existsSync('/usr/share/fonts/truetype/dejavu'),
  qpdf: () => onPath('qpdf'),
  'poppler-utils': () => onPath('pdftotext'),
  'libxml2-utils': () => onPath('xmllint'),
  sox: () => onPath('sox'),
  'glpk-utils': () => onPath('glpsol'),
  neovim: () => onPath('nvim'),
};

/** Names of Debian packages that are not there. */
export const missingTools = (names = Object.keys(tools)) => names.filter((name) => !tools[name]());

/** Installs missing tools with apt where this may be done, and says what stays missing; tests that want them then count as skipped. */
export async function installTools(names = Object.keys(tools)) {
  const missing = missingTools(names);
  if (missing.length === 0) return true;
  const mayInstall = process.getuid?.() === 0 && onPath('apt-get');
  if (mayInstall) {
    const env = { DEBIAN_FRONTEND: 'noninteractive' };
    await quietly('apt-get', ['update', '-q'], { env });
    if (!(await quietly('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...missing], { env }))) {
      for (const name of missing) await quietly('apt-get', ['install', '-y', '-q', '--no-install-recommends', name], { env });
    }
  }
  const still = missingTools(names);
  if (still.length > 0) console.log(`  not installed: ${still.join(', ')}; what needs them is skipped and counted`);
  return true;
}

const browsers = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge'];
const macBrowsers = ['/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '/Applications/Chromium.app/Contents/MacOS/Chromium'];

/** Path or name of an installed Chromium-like browser, or null. `BULLFIDDLE_BROWSER` decides if set. */
export function findBrowser() {
  if (process.env.BULLFIDDLE_BROWSER) return process.env.BULLFIDDLE_BROWSER;
  const name = firstOnPath(browsers);
  if (name !== null)
    return (
      (process.env.PATH ?? '')
        .split(delimiter)
        .map((folder) => join(folder, name))
        .find(existsSync) ?? null
    );
  return macBrowsers.find(existsSync) ?? null;
}
