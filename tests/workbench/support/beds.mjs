// Beds for the tests: a folder of tunes, the extension from the checkout or from its package, a page that shows it.
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { format } from 'node:util';
import { installInBed, startBed } from '../../../scripts/support/bed.mjs';
import { root } from '../../../scripts/support/steps.mjs';
import { startWebBed } from '../../../scripts/support/web-bed.mjs';
import { openPage } from './browser.mjs';
import { workbench } from './workbench.mjs';

/** The bed opened last: what it shows and says tells why a test failed. */
export let latest = null;

const scratch = join(root, '.cache/workbench');

/** An empty folder to begin in. */
export function emptyFolder(name) {
  const folder = join(scratch, name, 'tunes');
  rmSync(join(scratch, name), { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  return folder;
}

/** A fresh copy of the demo book to work in. */
export function demoFolder(name) {
  const folder = emptyFolder(name);
  cpSync(join(root, 'media/demo'), folder, { recursive: true });
  return folder;
}

/** Opens `folder` with the extension from the checkout; a test suite for the extension host runs if one is named. All ends after `seconds`. */
export async function bedOfCheckout(browser, name, folder, { suite = null, settings = {}, seconds = 600 } = {}) {
  const bed = await startBed(join(scratch, name, 'data'), { seconds, settings });
  const payload = [['extensionDevelopmentPath', `vscode-remote://${bed.authority}${root}`]];
  if (suite !== null) payload.push(['extensionTestsPath', `vscode-remote://${bed.authority}${suite}`]);
  return opened(browser, bed, folder, payload);
}

/** Opens `folder` with the packaged extension installed. */
export async function bedOfPackage(browser, name, folder, vsix) {
  const data = join(scratch, name, 'data');
  mkdirSync(data, { recursive: true });
  if (!(await installInBed(data, vsix))) throw new Error(`${vsix} could not be installed.`);
  return opened(browser, await startBed(data, { seconds: 600 }), folder, []);
}

/** Opens a virtual folder of `files` (text by name) in the web workbench, with the web build of the checkout. */
export async function bedOfWeb(browser, files) {
  const bed = await startWebBed(files);
  return shown(browser, bed, bed.origin);
}

function opened(browser, bed, folder, payload) {
  const query = new URLSearchParams({ folder, ...(payload.length > 0 ? { payload: JSON.stringify(payload) } : {}) });
  return shown(browser, bed, `${bed.origin}/?${query}`);
}

async function shown(browser, bed, address) {
  const { page, complaints, close } = await openPage(browser);
  const log = [];
  let ended;
  const finished = new Promise((done) => {
    ended = done;
  });
  await page.exposeFunction('codeAutomationLog', (_type, args) => log.push(format(...args)));
  await page.exposeFunction('codeAutomationExit', (code) => ended(code));
  const closeAll = async () => {
    await close().catch(() => {});
    await bed.stop();
  };
  latest = { page, complaints };
  try {
    await page.goto(address);
  } catch (error) {
    await closeAll();
    throw error;
  }
  return { page, complaints, log, finished, work: workbench(page), close: closeAll };
}
