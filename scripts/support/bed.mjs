// The embedded workbench: a VS Code server from the npm registry in an ignored folder, started on a loopback port.
import { spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, openSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { cleanEnv, quietly, root } from './steps.mjs';

const codeServer = '4.100.3';
const ripgrep = '1.18.0';
/** The server's own Node, for a machine whose Node is another major than the one it was built for. */
const nodeForServer = '20.19.5';

const bed = join(root, '.cache/bed');
const vscode = join(bed, 'node_modules/code-server/lib/vscode');
const ready = join(bed, `ready-${codeServer}`);
const target = `${process.platform}-${process.arch}`;
const ownNode = process.versions.node.startsWith('20.');

/** A stand-in for the native log writer, which is not built here: without it the Output view stays empty. */
const spdlog = `// Writes log lines to a file; stands in for the native module.
const fs = require('node:fs');
class Logger {
  constructor(type, name, file) { this.file = file; this.raw = false; }
  write(level, text) { try { fs.appendFileSync(this.file, this.raw ? text : new Date().toISOString() + ' [' + level + '] ' + text + '\\n'); } catch {} }
  trace(t) { this.write('trace', t); } debug(t) { this.write('debug', t); } info(t) { this.write('info', t); }
  warn(t) { this.write('warning', t); } error(t) { this.write('error', t); } critical(t) { this.write('critical', t); }
  getLevel() { return 2; } setLevel() {} clearFormatters() { this.raw = true; } setPattern() {} flush() {} drop() {}
}
exports.Logger = Logger;
exports.version = 0;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.shutdown = () => {};
exports.createRotatingLogger = async (name, file) => new Logger('rotating', name, file);
exports.createAsyncRotatingLogger = async (name, file) => new Logger('rotating_async', name, file);
`;

/** Installs the embedded workbench if it is not there yet. */
export async function installBed() {
  if (existsSync(ready)) return true;
  mkdirSync(bed, { recursive: true });
  // Without a manifest of its own, npm would install into the project above.
  writeFileSync(join(bed, 'package.json'), '{"private":true}\n');
  const packages = [`code-server@${codeServer}`, `@vscode/ripgrep-${target}@${ripgrep}`];
  if (!ownNode) packages.push(`node-${target}@${nodeForServer}`);
  const flags = ['--ignore-scripts', '--no-audit', '--no-fund'];
  if (!(await quietly('npm', ['install', ...flags, ...packages], { cwd: bed }))) return false;
  if (!(await quietly('npm', ['install', '--omit=dev', ...flags], { cwd: vscode }))) return false;
  const bin = join(vscode, 'node_modules/@vscode/ripgrep/bin');
  mkdirSync(bin, { recursive: true });
  copyFileSync(join(bed, `node_modules/@vscode/ripgrep-${target}/bin/rg`), join(bin, 'rg'));
  writeFileSync(join(vscode, 'node_modules/@vscode/spdlog/index.js'), spdlog);
  writeFileSync(ready, '');
  return true;
}

/** A port that is free now, on the loopback address. */
export function freePort() {
  return new Promise((done, fail) => {
    const probe = createServer();
    probe.on('error', fail);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => done(port));
    });
  });
}

const serverNode = () => (ownNode ? process.execPath : join(bed, `node_modules/node-${target}/bin/node`));

/** Settings of a user who wants no help but ours: nothing asks, pops up, or types along. */
const plainSettings = {
  'security.workspace.trust.enabled': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'extensions.ignoreRecommendations': true,
  'editor.autoClosingBrackets': 'never',
  'editor.autoClosingQuotes': 'never',
  'editor.quickSuggestions': { other: 'off', comments: 'off', strings: 'off' },
  'editor.suggestOnTriggerCharacters': false,
  'editor.wordBasedSuggestions': 'off',
  'editor.minimap.enabled': false,
  'files.autoSave': 'off',
  'git.enabled': false,
  'telemetry.telemetryLevel': 'off',
};

const serverArgs = (data) => [
  join(vscode, 'out/server-main.js'),
  ...['--server-data-dir', join(data, 'server'), '--user-data-dir', join(data, 'user'), '--extensions-dir', join(data, 'extensions')],
  ...['--accept-server-license-terms', '--telemetry-level', 'off'],
];

/** Installs a packaged extension into the bed whose data lies in `data`. */
export function installInBed(data, vsix) {
  return quietly(serverNode(), [...serverArgs(data), '--install-extension', vsix], { env: { EXTENSIONS_GALLERY: '{}' } });
}

/**
 * Starts the embedded workbench.
 * @param data folder for its data; the log is written there
 * @param seconds after which it ends by itself, even if this process was killed
 * @returns {Promise<{ origin: string, authority: string, stop(): Promise<void> }>}
 */
export async function startBed(data, { seconds, settings = {} }) {
  mkdirSync(join(data, 'user/User'), { recursive: true });
  writeFileSync(join(data, 'user/User/settings.json'), JSON.stringify({ ...plainSettings, ...settings }));
  const port = await freePort();
  const log = openSync(join(data, 'server.log'), 'w');
  const args = [...serverArgs(data), '--host', '127.0.0.1', '--port', String(port), '--without-connection-token'];
  const command = process.platform === 'linux' ? ['timeout', [String(seconds), serverNode(), ...args]] : [serverNode(), args];
  // A group of its own, so that the server and all it started can be ended together.
  const child = spawn(...command, { detached: true, env: cleanEnv({ EXTENSIONS_GALLERY: '{}' }), stdio: ['ignore', log, log] });
  const ended = new Promise((done) => child.on('close', done));
  const authority = `127.0.0.1:${port}`;
  const stop = async () => {
    try {
      process.kill(-child.pid, 'SIGTERM');
    } catch {
      return; // It has ended already.
    }
    await ended;
  };
  try {
    await answering(`http://${authority}/version`, child);
  } catch (error) {
    await stop();
    throw error;
  }
  return { origin: `http://${authority}`, authority, stop };
}

/** Waits until the address answers; throws after a minute or if the process ends. */
async function answering(url, child) {
  for (let tries = 0; tries < 240; tries++) {
    if (child.exitCode !== null)
      throw new Error(`The embedded workbench ended at once with code ${child.exitCode}; its log is beside its data.`);
    const answer = await fetch(url).catch(() => null);
    if (answer?.ok) return;
    await new Promise((done) => setTimeout(done, 250));
  }
  throw new Error('The embedded workbench did not answer within a minute.');
}
