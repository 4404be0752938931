// A folder of 5,000 tune files against one of a single file: the first squiggle of an opened tune, and a search over the folder's tunes. The client reads files from memory, so that disks stay out of it. Prints figures and ratios; judges nothing.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { startServer } from '../support/endurance/server.ts';

const many = 5000;
const demo = join(import.meta.dirname, '../../media/demo');
const melody = readFileSync(join(demo, 'nettle-fair.abc'), 'utf8');
const opened = 'file:///tunes/ferrymans-dare.abc';
const openedText = readFileSync(join(demo, 'ferrymans-dare.abc'), 'utf8');

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
const since = (start: number): number => performance.now() - start;

/** The server with a folder of `count` files: until the first findings of an opened tune, and for searches after them (ms). */
async function measure(count: number): Promise<{ squiggle: number; first: number; later: number; found: number }> {
  const others = Array.from({ length: count - 1 }, (_, i) => `file:///tunes/tune-${i}.abc`);
  const server = await startServer({ reads: true });
  const { connection } = server;
  connection.onRequest('bullfiddle/list', () => [opened, ...others]);
  connection.onRequest('bullfiddle/read', ({ uri }: { uri: string }) =>
    uri === opened ? openedText : uri.endsWith('.abc') ? melody.replaceAll('Nettle Fair', `Nettle Fair ${/\d+/.exec(uri)?.[0]}`) : null,
  );
  const findings = new Promise<void>((resolve) => {
    connection.onNotification('textDocument/publishDiagnostics', ({ diagnostics }: { diagnostics: unknown[] }) => {
      if (diagnostics.length > 0) resolve();
    });
  });
  const start = performance.now();
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri: opened, languageId: 'abc', version: 1, text: openedText },
  });
  await findings;
  const squiggle = since(start);
  const search = async (query: string): Promise<{ ms: number; found: number }> => {
    const begun = performance.now();
    const found = await connection.sendRequest<unknown[]>('workspace/symbol', { query });
    return { ms: since(begun), found: found.length };
  };
  const first = await search('Nettle');
  const later = [await search('Fair 49'), await search('Ferry'), await search('Nettle Fair 4999'), await search('low')];
  server.stop();
  return { squiggle, first: first.ms, later: median(later.map(({ ms }) => ms)), found: later[0]!.found };
}

const rounds = 5;
const one = [];
const folder = [];
for (let i = 0; i < rounds; i++) {
  one.push(await measure(1));
  folder.push(await measure(many));
}
const squiggles = [one, folder].map((runs) => median(runs.map(({ squiggle }) => squiggle)));
console.log(
  `first squiggle: ${squiggles[0]!.toFixed(0)} ms with one file, ${squiggles[1]!.toFixed(0)} ms with ${many} (${(squiggles[1]! / squiggles[0]!).toFixed(2)} times; ` +
    `the runs with one file lie between ${Math.min(...one.map(({ squiggle }) => squiggle)).toFixed(0)} and ${Math.max(...one.map(({ squiggle }) => squiggle)).toFixed(0)})`,
);
console.log(
  `tunes of the folder by name: ${median(folder.map(({ first }) => first)).toFixed(0)} ms for the first search, which reads them, ${median(folder.map(({ later }) => later)).toFixed(0)} ms for those after (${folder[0]!.found} found)`,
);
