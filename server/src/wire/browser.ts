// Entry: the language server in a web worker.
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from './server.ts';

/** The worker's own scope, as far as it is used here. */
declare const self: ConstructorParameters<typeof BrowserMessageReader>[0] & { performance: { now(): number } };

// A message to oneself waits behind those of the client, and unlike a timer for no longer.
const turn = new MessageChannel();
const waiting: (() => void)[] = [];
turn.port1.addEventListener('message', () => waiting.shift()?.());
turn.port1.start();

serve(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)), {
  now: () => self.performance.now(),
  soon: (work) => {
    waiting.push(work);
    turn.port2.postMessage(null);
  },
  read: () => Promise.resolve(null),
  handouts: null,
  tableBytes: 8 * 1024 * 1024,
});
