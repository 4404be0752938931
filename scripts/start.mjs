// The main job on the demo book: findings, tab as text, a handout page; then the editor with the book. `--once` ends after the terminal part.
import { cpSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { installBed, startBed } from './support/bed.mjs';
import { firstOnPath, installPackages } from './support/install.mjs';
import { root, run, step } from './support/steps.mjs';

const once = process.argv.includes('--once');
const demo = join(root, 'media/demo');
const handouts = join(root, '.cache/handouts');
const cli = (...args) => run(process.execPath, [join(root, 'dist/cli.js'), ...args]);

/** A command of ours that ended by itself: findings (1) are what the demo is for. */
const ended = ({ code }) => code === 0 || code === 1;

async function terminalPart() {
  if (!(await step('install packages', installPackages))) return false;
  if (!(await step('build', async () => (await run(process.execPath, [join(root, 'scripts/build.mjs')], { quiet: true })).code === 0)))
    return false;
  const steps = [
    ['check the demo book: one tune holds a slur that no hand plays', () => cli('check', 'media/demo')],
    ['make tab and sheets', () => cli('handout', 'media/demo/orrins-lantern.abc', '--out', handouts, '--format', 'text,svg,pdf')],
  ];
  for (const [title, work] of steps) if (!(await step(title, async () => ended(await work())))) return false;
  console.log(`\n${readFileSync(join(handouts, 'orrins-lantern.txt'), 'utf8').split('\n').slice(0, 40).join('\n')}\n...`);
  console.log(`\nThe handout's pages are in ${handouts}`);
  return true;
}

/** A copy, so that what is tried out does not change the checkout. */
function bookToEdit() {
  const folder = join(root, '.cache/demo-book');
  if (!existsSync(folder)) {
    mkdirSync(folder, { recursive: true });
    cpSync(demo, folder, { recursive: true });
  }
  return folder;
}

/** The installed VS Code, if it can show a window. */
function installedEditor() {
  const headless = process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY;
  return headless ? null : firstOnPath(process.platform === 'win32' ? ['code.cmd'] : ['code']);
}

async function openInstalled(editor, folder) {
  console.log(`\nOpening ${editor} with the demo book; close its window to end.`);
  const args = ['--wait', '--new-window', `--extensionDevelopmentPath=${root}`, folder, join(folder, 'orrins-lantern.abc')];
  return (await run(editor, args)).code === 0;
}

async function openEmbedded(folder) {
  if (!(await step('install the embedded workbench', installBed))) return false;
  const bed = await startBed(join(root, '.cache/start'), { seconds: 24 * 60 * 60 });
  const payload = JSON.stringify([['extensionDevelopmentPath', `vscode-remote://${bed.authority}${root}`]]);
  console.log(
    `\nThe editor with the demo book is at\n\n  ${bed.origin}/?${new URLSearchParams({ folder, payload })}\n\nOpen it in a browser on this machine. Ctrl-C ends it.`,
  );
  await new Promise((done) => {
    for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, done);
  });
  await bed.stop();
  return true;
}

async function openEditor() {
  const folder = bookToEdit();
  const editor = installedEditor();
  return editor === null ? openEmbedded(folder) : openInstalled(editor, folder);
}

const good = (await terminalPart()) && (once || (await openEditor()));
process.exit(good ? 0 : 1);
