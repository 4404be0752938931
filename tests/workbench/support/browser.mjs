// A headless browser that reaches this machine only, and one page in it that shows the workbench.
import { chromium } from 'playwright-core';
import { findBrowser } from '../../../scripts/support/install.mjs';

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // Nothing outside this machine is looked up.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost, EXCLUDE *.localhost',
];

/** Null where no browser is installed. */
export async function openBrowser() {
  const executablePath = findBrowser();
  if (executablePath === null) return null;
  return chromium.launch({ executablePath, args: flags, handleSIGINT: false, handleSIGTERM: false, handleSIGHUP: false });
}

/** What the bed says of itself: native modules that are not built there, and a service worker it has not got. */
export const ofTheBed = /native-watchdog|watchdog|responded with a status of 404|\(404\) was received/;

/** A fresh page; what it and the extension host complain of is kept in `complaints`. */
export async function openPage(browser, size = { width: 1500, height: 950 }) {
  const context = await browser.newContext({ viewport: size });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  const complaints = [];
  page.on('console', (message) => {
    const told = message.type() === 'error' || message.text().includes('[Extension Host]');
    if (told && !ofTheBed.test(message.text())) complaints.push(message.text());
  });
  return { page, complaints, close: () => context.close() };
}
