// Each writing help as the editor asks for it and as its commands carry it out, on one text with the caret marked.
const assert = require('node:assert/strict');
const { CodeActionKind, commands, Position, Range, Selection, window, workspace } = require('vscode');
const { until } = require('./until.cjs');

const ask = (command, ...args) => commands.executeCommand(`vscode.execute${command}`, ...args);
const tune = (music) => `X:1\nT:Trial\nM:4/4\nL:1/8\nQ:1/4=80\nK:D clef=bass\n${music}\n`;

/** Shows a text without its marks (`$0`): the caret stands at the only one, or all between two is selected. */
async function shown(marked) {
  const [before, inside, after] = marked.split('$0');
  const content = after === undefined ? before + (inside ?? '') : before + inside + after;
  const document = await workspace.openTextDocument({ language: 'abc', content });
  const editor = await window.showTextDocument(document);
  const at = document.positionAt(before.length);
  editor.selection = new Selection(at, after === undefined ? at : document.positionAt(before.length + inside.length));
  return { document, editor, at, uri: document.uri, text: (range) => document.getText(range) };
}

const bodyOf = (document) => document.getText().split('clef=bass\n')[1]?.trimEnd();

/** Waits for an answer that has something in it. */
const asked = (what, look) => until(what, async () => {
  const found = await look();
  return found && (found.length ?? 1) > 0 && found;
});

/** Runs a command and waits until the music reads so. */
async function checkCommand(marked, command, wanted, ...args) {
  const { document } = await shown(tune(marked));
  await commands.executeCommand(command, ...args);
  await until(`${command} to give ${wanted}`, () => bodyOf(document) === wanted, 20_000).catch(() => assert.equal(bodyOf(document), wanted));
}

/** Applies the offered action of that title and reads the music. */
async function checkAction(marked, title, wanted) {
  const { document, editor, uri } = await shown(tune(marked));
  const action = await until(`the offer ${title}`, async () => {
    const offers = await ask('CodeActionProvider', uri, editor.selection, CodeActionKind.Refactor.value, 50);
    return offers.find((one) => title.test(one.title));
  });
  assert.ok(action.edit, `${action.title} brings its change`);
  assert.ok(await workspace.applyEdit(action.edit));
  assert.equal(bodyOf(document), wanted);
}

describe('what the editor shows of a text', () => {
  it('signature: the part of the field at the caret', async () => {
    const { uri, at } = await shown('X:1\nT:t\nI:bullfiddle part=bass mensur=$0\nK:D clef=bass\nD,|\n');
    const help = await until('the signature', () => ask('SignatureHelpProvider', uri, at, '='));
    const { signatures, activeParameter } = help;
    const { label, parameters } = signatures[0];
    const active = parameters[signatures[0].activeParameter ?? activeParameter].label;
    assert.equal(typeof active === 'string' ? active : label.slice(...active), 'mensur=');
  });

  it('completion: keys of the directive', async () => {
    const { uri, at } = await shown('X:1\nT:t\nI:bullfiddle $0\nK:D clef=bass\nD,|\n');
    const { items } = await until('offers', async () => {
      const list = await ask('CompletionItemProvider', uri, at);
      return list.items.some(({ label }) => (label.label ?? label).startsWith('mensur')) && list;
    });
    assert.ok(items.length > 3);
  });

  it('snippet: a whole tune by its name', async () => {
    const { uri, at } = await shown('$0');
    const { items } = await until('offers', async () => {
      const list = await ask('CompletionItemProvider', uri, at);
      return list.items.some(({ insertText }) => insertText?.value?.includes('X:')) && list;
    });
    assert.ok(items.length > 0);
  });

  it('hints: how full the open bar is, and places when asked for', async () => {
    const { document, uri } = await shown(tune('D,8|E,2 F,4$0'));
    const whole = new Range(0, 0, document.lineCount, 0);
    const labels = async () =>
      (await ask('InlayHintProvider', uri, whole)).map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));
    assert.deepEqual(await asked('the bar sum', labels), ['3/4 of 4/4']);
    const settings = workspace.getConfiguration('bullfiddle');
    await settings.update('hints.places', 'all', true);
    try {
      await until('places', async () => (await labels()).includes('D0'));
    } finally {
      await settings.update('hints.places', undefined, true);
    }
  });

  it('lens: range, key, shifts and tempo over a bass part', async () => {
    const { uri } = await shown(tune('F,,DF,,D F,,DF,,D|F,,8|'));
    const lenses = await asked('the lens', () => ask('CodeLensProvider', uri, 10));
    assert.ok(lenses.some(({ command }) => /sounds F♯1 to D3 · key D/.test(command?.title ?? '')), JSON.stringify(lenses));
  });

  it('semantic tokens: every note is one', async () => {
    const { uri } = await shown(tune('D,2E,2 F,4|'));
    const legend = await asked('the legend', () => commands.executeCommand('vscode.provideDocumentSemanticTokensLegend', uri));
    const { data } = await until('tokens', async () => {
      const found = await commands.executeCommand('vscode.provideDocumentSemanticTokens', uri);
      return found?.data.length > 0 && found;
    });
    assert.ok(legend.tokenTypes.length > 3);
    assert.ok(data.length / 5 >= 9, 'fields and notes');
  });

  it('workspace symbols: a tune of the folder by its title', async () => {
    const found = await asked('the tune', async () => (await ask('WorkspaceSymbolProvider', 'Nettle')).filter(({ name }) => /Nettle Fair/.test(name)));
    assert.match(found[0].location.uri.path, /nettle-fair\.abc$/);
  });

  it('selection ranges: from the note outwards', async () => {
    const { uri, at, text } = await shown(tune('D,E,F,G, A,$0B,CD|E,8|'));
    const [first] = await asked('ranges', () => ask('SelectionRangeProvider', uri, [at]));
    const spans = [];
    for (let range = first; range && spans.length < 4; range = range.parent) spans.push(text(range.range));
    assert.deepEqual(spans, ['B,', 'A,B,CD', 'D,E,F,G, A,B,CD|', 'D,E,F,G, A,B,CD|E,8|']);
  });

  it('highlights: both ends of a slur', async () => {
    const { uri, at, text } = await shown(tune('$0(D,E,) F,2 G,4|'));
    const found = await asked('highlights', () => ask('DocumentHighlights', uri, at));
    assert.deepEqual(found.map(({ range }) => text(range)).sort(), ['(', ')']);
  });

  it('definition and references: from the order of parts to the part', async () => {
    const { uri, at, text } = await shown('X:1\nT:t\nP:A$0BA\nK:D\nP:A\nD|\nP:B\nE|\n');
    const [defined] = await asked('the definition', () => ask('DefinitionProvider', uri, at));
    assert.equal((defined.targetRange ?? defined.range).start.line, 4);
    const places = await asked('references', () => ask('ReferenceProvider', uri, at));
    assert.deepEqual(places.map(({ range }) => text(range)), ['A', 'A', 'A']);
  });

  it('rename: a part, in its order too', async () => {
    const { document, uri, at } = await shown('X:1\nT:t\nP:(A$0B)2A\nK:D\nP:A\nD|\nP:B\nE|\n');
    const edit = await until('the renaming', () => ask('DocumentRenameProvider', uri, at, 'C'));
    assert.ok(await workspace.applyEdit(edit));
    assert.equal(document.getText(), 'X:1\nT:t\nP:(CB)2C\nK:D\nP:C\nD|\nP:B\nE|\n');
  });

  it('links: an address in a field', async () => {
    const { uri } = await shown('X:1\nT:t\nF:https://example.org/tunes/1.abc\nK:D\nD|\n');
    const [link] = await asked('the link', () => ask('LinkProvider', uri, 10));
    assert.equal(link.target.toString(), 'https://example.org/tunes/1.abc');
  });

  it('hover: the string and the hand on a fingerboard', async () => {
    const { uri, at } = await shown(tune('D,2 $0E,2 F,4|'));
    const said = await until('the place', async () => {
      const hovers = await ask('HoverProvider', uri, at);
      const all = hovers.flatMap(({ contents }) => contents.map((part) => part.value ?? part)).join('\n');
      return /D string/i.test(all) && all;
    });
    assert.match(said, /data:image\/svg/);
  });
});

describe('what the editor does to a text', () => {
  it('formats a selection only', async () => {
    const { uri, document } = await shown(tune('D,2   E,2|\nF,2   G,2|'));
    const edits = await asked('edits', () => ask('FormatRangeProvider', uri, new Range(6, 0, 6, 10), { tabSize: 2, insertSpaces: true }));
    assert.ok(edits.every(({ range }) => range.start.line === 6 && range.end.line <= 7), JSON.stringify(edits));
    assert.match(document.lineAt(7).text, / {3}/);
  });

  it('formats a bar as it is closed', async () => {
    const { uri, document } = await shown(tune('D,2   E,2   F,4|'));
    const end = document.lineAt(6).range.end;
    const edits = await asked('edits', () => ask('FormatOnTypeProvider', uri, end, '|', { tabSize: 2, insertSpaces: true }));
    assert.ok(edits.length > 0);
  });

  it('moves the caret by bars', async () => {
    const { editor } = await shown(tune('D,$08|E,8|\nF,8|'));
    await commands.executeCommand('bullfiddle.bar.next');
    await until('the next bar', () => editor.selection.active.isEqual(new Position(6, 4)));
    await commands.executeCommand('bullfiddle.bar.next');
    await until('the bar after', () => editor.selection.active.isEqual(new Position(7, 0)));
    await commands.executeCommand('bullfiddle.bar.previous');
    await until('back', () => editor.selection.active.isEqual(new Position(6, 4)));
  });

  it('moves notes by octaves and back', async () => {
    await checkCommand('D,2 $0E,2$0 F,4|', 'bullfiddle.octave.up', 'D,2 E2 F,4|');
    await checkCommand('D,2 $0E2$0 F,4|', 'bullfiddle.octave.down', 'D,2 E,2 F,4|');
  });

  it('cleans a tune copied from a page', async () => {
    const { document } = await shown('X:1\nT:t\nK:F\u266F\n\u201CAm\u201DA,\u00A0B,|\n$0');
    await commands.executeCommand('bullfiddle.paste.clean');
    await until('plain text', () => document.getText() === 'X:1\nT:t\nK:F#\n"Am"A, B,|\n');
  });

  it('inks the fingering', () => checkCommand('$0E,2F,2 G,4|', 'bullfiddle.ink.all', '!1!!sulD!E,2!4!!sulD!F,2 !0!G,4|'));
  it('shifts a passage to another string', () => checkAction('E,2 $0!4!!sulG!G,2 A,2$0|', /on the D string/, 'E,2 !sulD!G,2 !sulD!A,2|'));
  it('doubles and halves lengths', async () => {
    await checkAction('$0D,E,/2 z$0|', /[Dd]ouble|[Ll]engthen|twice/, 'D,2E, z2|');
    await checkAction('$0D,4E,2$0|', /[Hh]al|[Ss]horten/, 'D,2E,|');
  });
  it('pins what is computed', () => checkAction('$0E,2F,2$0 G,2|', /^Pin/, '!1!!sulD!E,2!4!!sulD!F,2 G,2|'));
  it('puts accents on the backbeats', () => checkAction('D,2E,2 F,2G,2|$0', /backbeat|2 and 4/i, 'D,2!>!E,2 F,2!>!G,2|'));
  it('slurs two notes into a hammer-on', () => checkAction('$0E,F,$0 G,2 A,4|', /[Hh]ammer|[Ss]lur/, '(E,F,) G,2 A,4|'));
});
