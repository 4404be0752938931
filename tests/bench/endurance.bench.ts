// Half an hour of typing, without the pauses: what page, host and server have in use along the way, each after a full collection.
// Arguments: seed (1), keys (5400: three a second for thirty minutes), bars (64).
import type { Page } from 'playwright-core';
import type { FromPage, ToPage } from '../../client/messages.ts';
import { makeMailbox } from '../../client/src/preview/mailbox.ts';
import { makeRevisions } from '../../client/src/preview/revisions.ts';
import type { FromServer } from '../../server/src/wire/protocol.ts';
import { type Memory, ownMemory, told, verdict } from '../support/endurance/memory.ts';
import { type ServerProcess, serverBuilt, startServer } from '../support/endurance/server.ts';
import { tuneOf, typing } from '../support/endurance/typist.ts';
import { browserPath, openPage, startBrowser } from '../support/page/browser.ts';
import { seeded } from '../support/random.ts';

const [seed = 1, keys = 5400, bars = 64] = process.argv.slice(2).map(Number);
const samples = 36;
/** Keys that come faster than the sheet is drawn; then the player looks up. */
const burst = 8;
/** The player looks at the sheet, ms. */
const pause = 200;
const uri = 'file:///endurance.abc';
const view = 'sheet';
const look = { density: 'all', layout: 'stacked', follow: 'mouse' } as const;

const processes = ['page', 'host', 'server'] as const;

interface Heaps {
  readonly page: Memory;
  readonly nodes: number;
  readonly listeners: number;
  readonly host: Memory;
  readonly server: Memory;
}

/** What the extension host keeps for a sheet, between the real server and the real page. */
async function makeHost(server: ServerProcess, page: Page) {
  const revisions = makeRevisions();
  let painted = 0;
  let most = 0;
  let drawing = 0;
  let lastSent = 0;
  const mailbox = makeMailbox((message: ToPage) => {
    if (message.kind === 'scene' || message.kind === 'plan') drawing++;
    lastSent = Date.now();
    // As one string: the driver is slow with large objects.
    void page.evaluate((each) => (window as unknown as { send(m: unknown): void }).send(JSON.parse(each)), JSON.stringify(message));
  });
  const { connection } = server;
  connection.onNotification('bullfiddle/scene', ({ scene }: FromServer['bullfiddle/scene']) =>
    mailbox.post({ kind: 'scene', scene, look }),
  );
  connection.onNotification('bullfiddle/plan', ({ news }: FromServer['bullfiddle/plan']) => mailbox.post({ kind: 'plan', ...news }));
  await page.exposeFunction('toHost', (message: FromPage) => {
    if (message.kind === 'ready') mailbox.ready();
    if (message.kind !== 'painted') return;
    painted = message.revision.document;
    drawing--;
    mailbox.painted();
  });
  await page.evaluate(() => {
    const stand = window as unknown as { posted: FromPage[]; toHost(message: FromPage): void };
    for (const each of stand.posted) stand.toHost(each);
    stand.posted = [];
    stand.posted.push = (...messages) => {
      for (const each of messages) stand.toHost(each);
      return 0;
    };
  });
  let text = '';
  let version = 0;
  return {
    open(first: string): void {
      text = first;
      version = 1;
      const textDocument = { uri, languageId: 'abc', version, text };
      void connection.sendNotification('textDocument/didOpen', { textDocument });
      void connection.sendNotification('bullfiddle/show', { view, uri, offset: 0 });
    },
    press(key: { readonly from: number; readonly length: number; readonly insert: string }): void {
      const lineOf = (offset: number) => {
        const before = text.slice(0, offset);
        return { line: before.split('\n').length - 1, character: offset - (before.lastIndexOf('\n') + 1) };
      };
      const range = { start: lineOf(key.from), end: lineOf(key.from + key.length) };
      text = text.slice(0, key.from) + key.insert + text.slice(key.from + key.length);
      version++;
      revisions.note(uri, version, [{ from: key.from, length: key.length, inserted: key.insert.length }]);
      const changed = { textDocument: { uri, version }, contentChanges: [{ range, text: key.insert }] };
      void connection.sendNotification('textDocument/didChange', changed);
    },
    /** Resolves when the last text is on the screen; fails after a minute. */
    async drawn(): Promise<void> {
      for (const end = Date.now() + 60_000; painted !== version; ) {
        most = Math.max(most, mailbox.waiting);
        if (Date.now() > end) throw new Error(`Version ${version} was never drawn: the page stands at ${painted}.`);
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
    },
    /** Resolves when the page has had nothing to draw for a moment: a picture half made takes more than either. */
    async rested(): Promise<void> {
      while (drawing > 0 || Date.now() - lastSent < pause) await new Promise((resolve) => setTimeout(resolve, pause));
    },
    get waited() {
      return most;
    },
  };
}

async function run(page: Page, server: ServerProcess): Promise<void> {
  const host = await makeHost(server, page);
  const cdp = await page.context().newCDPSession(page);
  const { text, body } = tuneOf(bars);
  const heaps = async (): Promise<Heaps> => {
    await cdp.send('HeapProfiler.collectGarbage');
    const { usedSize, embedderHeapUsedSize, backingStorageSize } = await cdp.send('Runtime.getHeapUsage');
    const { nodes, jsEventListeners } = await cdp.send('Memory.getDOMCounters');
    return {
      page: { heap: usedSize, outside: embedderHeapUsedSize + backingStorageSize, arrays: backingStorageSize },
      nodes,
      listeners: jsEventListeners,
      host: await ownMemory(),
      server: await server.memory(),
    };
  };
  host.open(text);
  await host.drawn();
  const all: Heaps[] = [];
  const player = typing(seeded(seed), body, text.length);
  for (let key = 1; key <= keys; key++) {
    host.press(player.next().value);
    if (key % burst === 0) await host.drawn();
    if (key % Math.floor(keys / samples) !== 0) continue;
    await host.drawn();
    await host.rested();
    const now = await heaps();
    all.push(now);
    console.log(`${key} keys, ${now.nodes} nodes, ${now.listeners} listeners`);
    for (const name of processes) console.log(`  ${name} ${told(now[name])}`);
  }
  console.log(`seed ${seed}, ${bars} bars, ${keys} keys; at most ${host.waited} waited`);
  for (const name of processes) {
    const along = all.map((each) => each[name]);
    console.log(`  ${verdict(name, along)}`);
  }
}

if (browserPath === null || !serverBuilt) console.log('Wants Chromium and a build (npm run build): nothing was measured.');
else {
  const browser = await startBrowser();
  const server = await startServer();
  try {
    await run(await openPage(browser), server);
  } finally {
    server.stop();
    await browser.close();
  }
}
