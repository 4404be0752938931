// Entry: loading this starts the language server in Node, over the transport that the command line names (`--stdio`, `--node-ipc`).
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './server.ts';

/** The built server lies in `dist/`, beside `media/`. */
const fonts = join(__dirname, '..', 'media', 'fonts');

serve(createConnection(ProposedFeatures.all), {
  now: () => performance.now(),
  soon: (work) => void setImmediate(work),
  read: (uri) => (uri.startsWith('file:') ? readFile(fileURLToPath(uri), 'utf8') : Promise.resolve(null)),
  handouts: { load: () => import('../handout/index.ts'), font: (name) => readFile(join(fonts, `${name}.ttf`)) },
  tableBytes: 32 * 1024 * 1024,
});
