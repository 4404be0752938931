// The language server as an editor sees it, over in-memory streams.
import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, CompletionItem, DocumentSymbol, Hover, TextEdit, WorkspaceSymbol } from 'vscode-languageserver-protocol';
import type { Wish } from '../../../server/src/wire/protocol.ts';
import { fontFiles } from '../../support/handout.ts';
import { seeded } from '../../support/random.ts';
import { type Around, edited, placeIn, type Session, startSession, until } from './support/session.ts';

const uri = 'test:///book/tune.abc';
const tune = 'X:1\nT:Plain\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\nG,A,B,D|G,,A,,B,,D,|\n';
const melody = 'X:1\nT:Air\nM:4/4\nL:1/4\nQ:1/4=80\nK:G\nGABd|dBAG|\n';

let session: Session;
const start = async (around: Around = {}): Promise<Session> => {
  session = await startSession(around);
  return session;
};
afterEach(() => session.end());

const codes = (all: readonly { code?: unknown }[]): readonly unknown[] => all.map((one) => one.code);
const at = (mark: string) => ({ textDocument: { uri }, position: placeIn(session.text(uri), session.text(uri).indexOf(mark)) });
const apply = (text: string, edits: readonly { from: number; to: number; insert: string }[]): string =>
  [...edits].sort((a, b) => b.from - a.from).reduce((done, { from, to, insert }) => done.slice(0, from) + insert + done.slice(to), text);

describe('a book of a dozen tunes', () => {
  it('tells each tune its own places, asked together', async () => {
    const { open, client, version } = await start();
    const book = Array.from({ length: 12 }, (_, i) =>
      tune.replace('X:1', `X:${i + 1}`).replace('G,A,B,D|', i === 11 ? 'E,,A,B,D|' : 'G,A,B,D|'),
    );
    await open(uri, book.join('\n'));
    const first = (number: number): Promise<readonly { string: string; stop: number }[] | null> =>
      client.sendRequest('bullfiddle/places', { uri, tune: number, note: 0, head: 0, revision: { document: version(uri), settings: 0 } });
    const [second, twelfth] = await Promise.all([first(1), first(11)]);
    expect(second?.[0]).toMatchObject({ string: 'G', stop: 0 });
    expect(twelfth?.[0]).toMatchObject({ string: 'E', stop: 0 });
  });
});

describe('scenes', () => {
  it('are not made of texts that keys waiting have outdated, and end with the last one', async () => {
    const { open, edit, client, scenes } = await start();
    await open(uri, tune);
    await client.sendNotification('bullfiddle/show', { view: 'v', uri, offset: 0 });
    await until('the first scene', () => scenes.at(-1) ?? null);
    const before = scenes.length;
    const keys = 60;
    await Promise.all(Array.from({ length: keys }, () => edit(uri, 'D,|\n', 'D,D,|\n')));
    await until('the last scene', () => (scenes.at(-1)!.scene.revision.document === keys + 1 ? true : null));
    expect(scenes.length - before).toBeLessThan(keys / 4);
  });
});

describe('findings', () => {
  it('come with the version after opening and after an edit', async () => {
    const { open, edit, findings } = await start();
    await open(uri, tune.replace('G,A,B,D|', 'G,A,B,DD|'));
    expect(codes(await findings(uri, (all) => all.length > 0))).toContain('bar.too-long');
    await edit(uri, 'DD|', 'D|');
    expect(await findings(uri, (all) => all.length === 0)).toEqual([]);
  });
  it('are shown for the text in front of the first tune', async () => {
    const { open, findings } = await start();
    await open(uri, `%abc-2.1\nI:bullfiddle hand=gigantic\n\n${tune}`);
    const [one] = await findings(uri, (all) => all.length > 0);
    expect(one).toMatchObject({ code: 'bullfiddle.bad-value', range: { start: { line: 1 } } });
  });
  it('of the text in front of the first tune are mended there', async () => {
    const { open, client, text } = await start();
    await open(uri, `%abc-2.1\nI:bullfiddle hnd=small\n\n${tune}`);
    const { position } = at('hnd');
    const context = { diagnostics: [], only: ['quickfix'] };
    const found: CodeAction[] = await client.sendRequest('textDocument/codeAction', {
      textDocument: { uri },
      range: { start: position, end: position },
      context,
    });
    expect(edited(text(uri), found[0]?.edit?.changes?.[uri] ?? [])).toContain('I:bullfiddle hand=small\n');
  });
  it('in a symbol line are mended without moving the marks after them', async () => {
    const { open, client, text, findings } = await start();
    await open(uri, tune.replace('G,A,B,D|G,,A,,B,,D,|\n', 'G,A,B,D|\ns:* !0! !4! *|\n'));
    const all = await findings(uri, (found) => found.length > 0);
    const range = all[0]!.range;
    const found: CodeAction[] = await client.sendRequest('textDocument/codeAction', {
      textDocument: { uri },
      range,
      context: { diagnostics: all, only: ['quickfix'] },
    });
    expect(found.map((one) => edited(text(uri), one.edit?.changes?.[uri] ?? []))).toContainEqual(expect.stringContaining('s:* * !4! *|'));
  });
  it('follow the completion that is taken', async () => {
    const { open, edit, findings, client } = await start();
    await open(uri, tune);
    await findings(uri, (all) => all.length === 0);
    const items: CompletionItem[] = await client.sendRequest('textDocument/completion', at(',D|'));
    const chosen = items.find((item) => item.label.startsWith('D 9'))!;
    const now = edited(tune, [chosen.textEdit as TextEdit, ...(chosen.additionalTextEdits ?? [])]);
    expect(now).toMatch(/G,A,(?:!sulD!|![0-4T]!)+B,D\|/);
    await edit(uri, tune, now);
    expect(await findings(uri, (all) => all.length === 0)).toEqual([]);
    // An impossible pin is found out at once.
    await edit(uri, '!sulD!', '!sulE!!0!');
    expect(codes(await findings(uri, (all) => all.length > 0))).toContain('pin.contradiction');
  });
});

describe('answers while a search is blocked', () => {
  it('are given by outline, folding and hover', async () => {
    const { open, client } = await start({ turns: 'never' });
    await open(uri, tune);
    const outline: DocumentSymbol[] = await client.sendRequest('textDocument/documentSymbol', { textDocument: { uri } });
    expect(outline.map((one) => one.name)).toEqual(['Plain']);
    const hover: Hover | null = await client.sendRequest('textDocument/hover', at('A,B,'));
    expect(JSON.stringify(hover?.contents)).toContain('A');
  });
});

describe('a place chosen in the sheet', () => {
  it('is written as pins, and refused when the text has moved on', async () => {
    const { open, ask, client, scenes, version, text, edit } = await start();
    await open(uri, tune);
    await client.sendNotification('bullfiddle/show', { view: 'one', uri, offset: 0 });
    const { scene } = await until('a scene', () => scenes.at(-1) ?? null);
    const note = {
      uri,
      tune: 0,
      note: scene.notes[2]!.id,
      head: 0,
      revision: { document: version(uri), settings: scene.revision.settings },
    };
    const choices = (await ask('bullfiddle/places', note))!;
    const choice = choices.find((one) => one.string === 'D' && one.stop === 9)!;
    const answer = (await ask('bullfiddle/choose', { ...note, choice }))!;
    expect(answer.version).toBe(1);
    expect(apply(text(uri), answer.edits)).toMatch(/G,A,(?:!sulD!|![0-4T]!)+B,D\|/);
    await edit(uri, 'D|', 'E|');
    expect(await ask('bullfiddle/choose', { ...note, choice })).toBeNull();
  });
});

describe('bad input', () => {
  const random = seeded(7);
  const letters = 'ABCDEFGabcdefg,\'|[](){}!"^_=<>:/0123456789 \n%XKTMLQVPws\\~.-*';
  const noise = (length: number): string => Array.from({ length }, () => random.pick(letters)).join('');
  const bytes = Array.from({ length: 20_000 }, () => String.fromCharCode(random.below(256))).join('');
  for (const [name, text] of [
    ['an empty file', ''],
    ['a lone letter', 'X'],
    ['bytes of no text', `${bytes}\nX:1\nK:C bass\n${bytes}`],
    ['a megabyte of random signs', `X:1\nK:C bass\n${noise(1_000_000)}`],
  ] as const) {
    it(`${name} throws nothing and leaves the server answering`, async () => {
      const { open, client, log } = await start();
      await open(uri, text);
      await client.sendRequest('textDocument/documentSymbol', { textDocument: { uri } });
      await client.sendRequest('textDocument/foldingRange', { textDocument: { uri } });
      await client.sendRequest('textDocument/hover', { textDocument: { uri }, position: { line: 3, character: 2 } });
      expect(log.filter((line) => /Error|at .*\.ts:/.test(line))).toEqual([]);
    });
  }
  it('an unknown tuning in the settings is told with the valid ones, and the default holds', async () => {
    const { open, findings, log } = await start({ settings: { tuning: 'banjo' } });
    await open(uri, tune);
    await until('a line in the log', () => log.find((line) => line.includes('banjo')) ?? null);
    expect(log.find((line) => line.includes('banjo'))).toMatch(/standard/);
    expect(await findings(uri, (all) => all.length === 0)).toEqual([]);
  });
  it('a text over the limit is told once and still outlined', async () => {
    const { open, findings, client } = await start();
    await open(uri, `${tune}${'%\n'.repeat(1_000_100)}`);
    expect(codes(await findings(uri, (all) => all.length > 0))).toEqual(['file.limits']);
    const outline: DocumentSymbol[] = await client.sendRequest('textDocument/documentSymbol', { textDocument: { uri } });
    expect(outline).toHaveLength(1);
  });
});

describe('settings', () => {
  const high = tune.replace('G,A,B,D|', 'gggg|');
  it('of bullfiddle.json come before those of the editor', async () => {
    const files = { 'test:///book/bullfiddle.json': '{"player": {"top": 7}}' };
    const { open, findings } = await start({ settings: { top: 24 }, files });
    await open(uri, high);
    expect(codes(await findings(uri, (all) => all.length > 0))).toContain('range.too-high');
  });
  it('of the editor hold where the folder says nothing', async () => {
    const { open, findings } = await start({ settings: { top: 24 } });
    await open(uri, high);
    expect(codes(await findings(uri, (all) => all.length === 0))).toEqual([]);
  });
});

describe('changes by command', () => {
  const change = async (wish: Wish, mark: string) => {
    const { ask, text, version } = session;
    const from = text(uri).indexOf(mark);
    const answer = await ask('bullfiddle/change', { uri, version: version(uri), from, to: from, wish });
    return { text: apply(text(uri), answer!.edits), words: answer!.words };
  };
  it('arranges both versions beside a named source, without findings, and keeps them up to date', async () => {
    const { open, edit, findings, text } = await start();
    await open(uri, melody);
    const low = await change({ kind: 'arrange', version: 'low' }, 'GABd');
    expect(low.text).toContain('I:bullfiddle tune=air version=source\nK:G\n');
    expect(low.text).toMatch(/version=low/);
    await edit(uri, text(uri), low.text);
    const high = await change({ kind: 'arrange', version: 'high' }, 'GABd');
    expect(high.text.match(/version=source/g)).toHaveLength(1);
    await edit(uri, text(uri), high.text);
    expect(await findings(uri, (all) => all.length === 0)).toEqual([]);
    expect((await change({ kind: 'arrange', version: 'low' }, 'GABd')).words.join()).toContain('already');
    expect((await change({ kind: 'update' }, 'GABd')).text).toBe(high.text);
    await edit(uri, 'GABd', 'GAAd');
    expect(codes(await findings(uri, (all) => all.length > 0))).toContain('version.stale');
    const updated = await change({ kind: 'update' }, 'GAAd');
    await edit(uri, text(uri), updated.text);
    expect(await findings(uri, (all) => all.length === 0)).toEqual([]);
  });
  it('transposes there and back', async () => {
    const { open, edit, text } = await start();
    await open(uri, tune);
    const up = await change({ kind: 'transpose', semitones: 5 }, 'G,A,');
    expect(up.text).toContain('K:C clef=bass');
    await edit(uri, text(uri), up.text);
    expect((await change({ kind: 'transpose', semitones: -5 }, 'K:C')).text).toBe(tune);
  });
  it('enters notes by string and stop, in bass parts only', async () => {
    const { open } = await start();
    await open(uri, tune);
    expect((await change({ kind: 'enter', string: 'D', stop: 4 }, 'A,B,')).text).toContain('G,!sulD!F,A,B,');
    await open(uri, melody);
    expect((await change({ kind: 'enter', string: 'D', stop: 4 }, 'GABd')).words.join()).toContain('bass parts only');
  });
  it('inks the fingering', async () => {
    const { open } = await start();
    await open(uri, tune);
    expect((await change({ kind: 'action', action: 'ink', variant: 'all' }, 'A,B,')).text).toMatch(/![0-4]!.*![0-4]!/);
  });
  it('says plainly where no handout can be made', async () => {
    const { open, ask } = await start();
    await open(uri, tune);
    const { base64, words } = await ask('bullfiddle/export', { uri, format: 'pdf', at: null, date: '' });
    expect(base64).toBeNull();
    expect(words.join()).toContain('command line');
  });
  it('shows the text beside an earlier one, bar by bar', async () => {
    const { open, ask } = await start({
      handouts: { load: () => import('../../../server/src/handout/index.ts'), font: async (name) => fontFiles[name] },
    });
    await open(uri, tune);
    const { page } = await ask('bullfiddle/compare', { uri, old: tune.replace('A,B,D|', 'A,A,D|'), before: 'Last commit' });
    const words = ['What changed: tune.abc', 'Last commit', 'notes G A B D, were G A A D'].filter((each) => page?.includes(each) !== true);
    expect(words).toEqual([]);
    const same = await ask('bullfiddle/compare', { uri, old: tune, before: 'Last commit' });
    expect(same).toMatchObject({ page: null, words: expect.stringContaining('Nothing') });
  });
  it('shows the low and the high version side by side, and says what is missing', async () => {
    const { open, ask, edit, text } = await start({
      handouts: { load: () => import('../../../server/src/handout/index.ts'), font: async (name) => fontFiles[name] },
    });
    const beside = (mark: string, named: string | null = null) =>
      ask('bullfiddle/beside', { uri, offset: text(uri).indexOf(mark), tune: named });
    await open(uri, melody);
    expect(await beside('GABd')).toMatchObject({ page: null, words: expect.stringContaining('has no versions') });
    await edit(uri, text(uri), (await change({ kind: 'arrange', version: 'low' }, 'GABd')).text);
    expect(await beside('X:1')).toMatchObject({ page: null, words: expect.stringContaining('no high version yet') });
    await edit(uri, text(uri), (await change({ kind: 'arrange', version: 'high' }, 'GABd')).text);
    const { page, tune: name } = await beside('X:2');
    expect(name).toBe('air');
    expect(
      ['Air (low)', 'Air (high)', 'Bar A 1, Air (low)', 'Bar A 2, Air (high)'].filter((each) => page?.includes(each) !== true),
    ).toEqual([]);
    expect((await ask('bullfiddle/beside', { uri, offset: 0, tune: 'air' })).page).toBe(page);
  });
  it('writes a bass line from the chords, once', async () => {
    const { open, edit, findings, text } = await start();
    await open(uri, melody.replace('GABd', '"G"GABd'));
    const made = await change({ kind: 'arrange', version: 'backing' }, 'GABd');
    expect(made.text).toMatch(/version=backing[\s\S]*"G"/);
    await edit(uri, text(uri), made.text);
    expect(await findings(uri, (all) => all.length === 0)).toEqual([]);
    expect((await change({ kind: 'arrange', version: 'backing' }, 'GABd')).words.join()).toContain('already');
    expect((await change({ kind: 'update' }, 'GABd')).words.join()).toContain('as made');
  });
  it('moves by bars and cleans what was pasted', async () => {
    const { open, ask, text } = await start();
    await open(uri, tune);
    const offset = text(uri).indexOf('A,B,');
    expect(await ask('bullfiddle/bar', { uri, offset, way: 'on' })).toBe(text(uri).indexOf('G,,A,,'));
    expect(await ask('bullfiddle/strings', { uri, offset })).toEqual(expect.arrayContaining(['G', 'D', 'A', 'E']));
    expect(await ask('bullfiddle/clean', { text: '\u201CAm\u201DA,\r\n' })).toBe('"Am"A,\r\n');
  });
});

describe('tunes of the folder', () => {
  const files = {
    'test:///book/a.abc': `%abc-2.1\n\n${melody}\n${melody.replace('Air', 'Hornpipe').replace('X:1', 'X:2')}`,
    'test:///book/b.abc': melody.replace('T:Air', 'T:Brook\nC:Ines').replace(/\n/g, '\r\n'),
  };
  const search = (query: string): Promise<WorkspaceSymbol[]> => session.client.sendRequest('workspace/symbol', { query });
  it('are found by every word, with their places, open ones as they are now', async () => {
    const { open, edit } = await start({ files });
    expect((await search('')).map((one) => one.name).sort()).toEqual(['Air', 'Brook', 'Hornpipe']);
    expect(await search('hornp')).toMatchObject([{ location: { uri: 'test:///book/a.abc', range: { start: { line: 11 } } } }]);
    expect(await search('ines brook')).toMatchObject([{ location: { range: { start: { line: 1 } } } }]);
    await open('test:///book/b.abc', files['test:///book/b.abc']);
    await edit('test:///book/b.abc', 'Brook', 'River');
    expect((await search('river')).map((one) => one.name)).toEqual(['River']);
  });
  it('are read again when told of a change', async () => {
    const changing: Record<string, string> = { ...files };
    const { client } = await start({ files: changing });
    await search('air');
    changing['test:///book/c.abc'] = melody.replace('Air', 'Late Comer');
    await client.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: 'test:///book/c.abc', type: 1 }] });
    expect((await search('late')).map((one) => one.name)).toEqual(['Late Comer']);
  });
});
