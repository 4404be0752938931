// What the editor gets for a tune text: activation, findings, offers, hover, symbols, folding, fixes, formatting.
const assert = require('node:assert/strict');
const { execFileSync } = require('node:child_process');
const { join } = require('node:path');
const { commands, extensions, languages, Position, Range, Uri, WorkspaceEdit, window, workspace } = require('vscode');
const { until } = require('./until.cjs');

const extension = extensions.getExtension('bullfiddle.bullfiddle');
const book = (name) => join(workspace.workspaceFolders[0].uri.fsPath, name);
const names = ['ferrymans-dare', 'lamplighters-ladder', 'nettle-fair', 'orrins-lantern', 'towpath-breakdown'].map((name) => `${name}.abc`);

const open = async (name) => (await window.showTextDocument(Uri.file(book(name)))).document;
const ask = (command, ...args) => commands.executeCommand(`vscode.execute${command}`, ...args);

/** A finding by code, place and severity, as both the editor and the command line can say it. */
const ofEditor = (document) =>
  languages
    .getDiagnostics(document.uri)
    .map(({ code, range, severity, message }) => {
      const name = typeof code === 'object' ? code.value : code;
      return `${range.start.line + 1}:${range.start.character + 1} ${['error', 'warning', 'info', 'hint'][severity]} ${name} ${message}`;
    })
    .sort();

function ofCommandLine(name) {
  const args = [join(extension.extensionPath, 'dist/cli.js'), 'check', book(name), '--format', 'json'];
  let out;
  try {
    out = execFileSync(process.execPath, args, { encoding: 'utf8' });
  } catch (error) {
    // Errors among the findings make it end with 1; anything else is a fault.
    if (error.status !== 1) throw error;
    out = error.stdout;
  }
  return out
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line))
    .map(({ line, column, severity, code, message }) => `${line}:${column} ${severity} ${code} ${message}`)
    .sort();
}

async function untitled(text) {
  const document = await workspace.openTextDocument({ language: 'abc', content: text });
  await window.showTextDocument(document);
  return document;
}

const tune = (music) => `%abc-2.1\nX:1\nT:Trial\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\n${music}\n`;

describe('a tune text in the editor', () => {
  it('wakes the extension, which has slept until then', async () => {
    assert.equal(extension.isActive, false);
    const start = performance.now();
    await open('orrins-lantern.abc');
    await until('activation', () => extension.isActive);
    assert.deepEqual((await extension.activate()).sheets(), []);
    console.log(`activation: ${Math.round(performance.now() - start)} ms from opening a tune`);
  });

  for (const name of names) {
    it(`has the findings of the command line: ${name}`, async () => {
      const wanted = ofCommandLine(name);
      if (name === 'ferrymans-dare.abc') assert.notDeepEqual(wanted, []);
      const document = await open(name);
      await until(`${wanted.length} findings`, () => ofEditor(document).join('\n') === wanted.join('\n')).catch(() => {});
      assert.deepEqual(ofEditor(document), wanted);
    });
  }

  it('offers places for a note, each with what follows', async () => {
    const document = await untitled(tune('G,A,B,D|'));
    const { items } = await until('offers', async () => {
      const list = await ask('CompletionItemProvider', document.uri, new Position(7, 3));
      return list.items.some((item) => JSON.stringify(item.label).includes('D 7')) && list;
    });
    assert.ok(items.length >= 2);
  });

  it('tells pitch and place of a note', async () => {
    const document = await untitled(tune('G,A,B,D|'));
    const [hover] = await until('the hover', async () => {
      const hovers = await ask('HoverProvider', document.uri, new Position(7, 0));
      return hovers.length > 0 && hovers;
    });
    assert.match(hover.contents.map((part) => part.value ?? part).join('\n'), /open G string/i);
  });

  it('names the tunes and folds them', async () => {
    const document = await open('orrins-lantern.abc');
    const symbols = await until('symbols', () => ask('DocumentSymbolProvider', document.uri));
    assert.deepEqual(
      symbols.map((symbol) => symbol.name),
      ["Orrin's Lantern", "Orrin's Lantern (low)", "Orrin's Lantern (high)"],
    );
    const folds = await ask('FoldingRangeProvider', document.uri);
    assert.ok(folds.length >= 3);
  });

  it('mends a slur that no hand plays', async () => {
    const document = await untitled(tune('(!sulG!^G,!sulG!B,)z2|'));
    const code = ({ code }) => (typeof code === 'object' ? code.value : code);
    const finding = await until('the finding', () => languages.getDiagnostics(document.uri).find((one) => code(one) === 'reach.too-wide'));
    const fix = await until('a fix', async () => {
      const actions = await ask('CodeActionProvider', document.uri, finding.range, 'quickfix', 10);
      return actions.find((action) => action.edit);
    });
    assert.ok(await workspace.applyEdit(fix.edit));
    await until('the finding to go', () => !languages.getDiagnostics(document.uri).some((one) => code(one) === 'reach.too-wide'));
  });

  it('formats the spaces of a text and leaves its music', async () => {
    const document = await untitled(tune('G,   A, B,D   |   D4|'));
    const edits = await ask('FormatDocumentProvider', document.uri, { tabSize: 2, insertSpaces: true });
    assert.ok(edits?.length > 0, 'there is something to mend');
    const whole = new Range(0, 0, document.lineCount, 0);
    const music = () => document.getText(whole).split('\n')[7].replace(/ /g, '');
    const before = music();
    const change = new WorkspaceEdit();
    change.set(document.uri, edits);
    assert.ok(await workspace.applyEdit(change));
    assert.equal(music(), before);
    assert.ok(!/ {3}/.test(document.getText(whole)));
  });
});
