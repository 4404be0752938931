// A long replay of typing inside a real extension host, with the sheet open: what host and server have in use along the way.
const assert = require('node:assert/strict');
const childProcess = require('node:child_process');
const { existsSync, readFileSync, renameSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { runInNewContext } = require('node:vm');
const { commands, extensions, Selection, window, workspace } = require('vscode');
const { until } = require('./until.cjs');

const probe = join(__dirname, '../../support/endurance/memory-probe.cjs');

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc');

/** Loads the probe into what is forked while `work` runs; gives the last such process. */
async function forkedBy(work) {
  const { fork } = childProcess;
  let child = null;
  childProcess.fork = (module, args, options) => {
    child = fork(module, args, { ...options, execArgv: [...(options?.execArgv ?? []), '--require', probe] });
    return child;
  };
  try {
    await work();
  } finally {
    childProcess.fork = fork;
  }
  assert.ok(child, 'the language server is a process of its own');
  return child;
}

/** What the probe in a process tells. */
function memoryOf(child) {
  return new Promise((resolve) => {
    let told = '';
    const hear = (data) => {
      told += data.toString();
      const found = /memory (.*)\n/.exec(told);
      if (found === null) return;
      child.stderr.off('data', hear);
      resolve(JSON.parse(found[1]));
    };
    child.stderr.on('data', hear);
    child.kill('SIGUSR2');
  });
}

async function ownMemory() {
  collect();
  await new Promise((done) => setImmediate(done));
  collect();
  const { heapUsed, external, arrayBuffers } = process.memoryUsage();
  return { heap: heapUsed, outside: external, arrays: arrayBuffers };
}

/** Presses keys at their places in the text without awaiting any; resolves when all have been taken. */
function press(editor, text, keys) {
  const taken = [];
  for (const { from, length, insert } of keys) {
    const at = placeIn(text, from + length);
    editor.selection = new Selection(at.line, at.character, at.line, at.character);
    taken.push(length > 0 ? commands.executeCommand('deleteLeft') : commands.executeCommand('type', { text: insert }));
    text = text.slice(0, from) + insert + text.slice(from + length);
  }
  return Promise.all(taken).then(() => text);
}

function placeIn(text, offset) {
  const lines = text.slice(0, offset).split('\n');
  return { line: lines.length - 1, character: lines.at(-1).length };
}

/** Hands a sample to the driver, which takes the file away when it has measured the page. */
async function hand(folder, sample) {
  const file = join(folder, 'sample.json');
  writeFileSync(`${file}.part`, JSON.stringify(sample));
  renameSync(`${file}.part`, file);
  await until('the driver to take the sample', () => !existsSync(file), 60_000);
}

/** Opens the tune with its sheet; `drawn` waits for the last text on it. */
async function opened(folder, sheets) {
  const document = await workspace.openTextDocument(join(folder, 'tune.abc'));
  const editor = await window.showTextDocument(document);
  await commands.executeCommand('bullfiddle.sheet.open');
  const sheet = () => sheets().find((one) => one.uri === document.uri.toString());
  const upToDate = () => sheet()?.painted?.document === document.version && sheet().waiting === 0;
  return { document, editor, drawn: () => until('the last text drawn', upToDate, 90_000) };
}

/** Replays `replay.json` of the open folder: keys, how many come at once, and after how many a sample is taken and the text is saved. */
exports.run = async () => {
  const folder = workspace.workspaceFolders[0].uri.fsPath;
  const { keys, burst, sampled, saved } = JSON.parse(readFileSync(join(folder, 'replay.json'), 'utf8'));
  const extension = extensions.getExtension('bullfiddle.bullfiddle');
  const server = await forkedBy(() => extension.activate());
  const { document, editor, drawn } = await opened(folder, extension.exports.sheets);
  await drawn();
  let text = document.getText();
  for (let done = burst; done <= keys.length; done += burst) {
    text = await press(editor, text, keys.slice(done - burst, done));
    await until('the keys in the text', () => document.getText() === text);
    if (done % saved === 0) await document.save();
    await drawn();
    if (done % sampled === 0) await hand(folder, { keys: done, host: await ownMemory(), server: await memoryOf(server) });
  }
};
