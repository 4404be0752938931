// The page in a headless Chromium, with a stand-in for the editor's side; null where no browser is installed.
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import esbuild from 'esbuild';
import { type Browser, chromium, type Page } from 'playwright-core';

const root = join(import.meta.dirname, '../../..');
const places = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
export const browserPath: string | null = places.find((path) => existsSync(path)) ?? null;

/** A browser that reaches nothing outside this machine. */
export const startBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath: browserPath!,
    args: ['--no-sandbox', '--disable-gpu', '--host-resolver-rules=MAP * ~NOTFOUND', '--autoplay-policy=no-user-gesture-required'],
  });

/** A script of the project as one file. */
export async function bundled(entry: string): Promise<string> {
  const { outputFiles } = await esbuild.build({
    entryPoints: [join(root, entry)],
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    platform: 'browser',
    target: 'chrome122',
    legalComments: 'none',
    logLevel: 'error',
  });
  return outputFiles[0]!.text;
}

/** The editor's side: what the page posts is kept in `window.posted`, `send` gives it a message. */
const stand = `
  window.posted = [];
  let state;
  window.acquireVsCodeApi = () => ({ postMessage: (m) => posted.push(m), getState: () => state, setState: (s) => { state = s; } });
  window.send = (message) => window.postMessage(message, '*');
`;

/** Opens the page, bundled from its sources, with its style sheet and a policy as strict as the panel's. */
export async function openPage(
  browser: Browser,
  options: { readonly width?: number; readonly style?: string; readonly script?: string } = {},
): Promise<Page> {
  const script = await bundled('client/webview/page.ts');
  const css = await readFile(join(root, 'media/sheet.css'), 'utf8');
  const page = await browser.newPage({ viewport: { width: options.width ?? 900, height: 900 } });
  const policy = `default-src 'none'; script-src 'nonce-t'; style-src 'nonce-t'; font-src 'nonce-t'`;
  await page.setContent(
    `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Sheet</title>` +
      `<meta http-equiv="Content-Security-Policy" content="${policy}">` +
      `<style nonce="t">${css}${options.style ?? ''}</style></head><body><main id="sheet"></main>` +
      [stand, options.script ?? '', script]
        .map((each) => `<script nonce="t">${each.replaceAll('</script', '<\\/script')}</script>`)
        .join('') +
      `</body></html>`,
  );
  return page;
}
