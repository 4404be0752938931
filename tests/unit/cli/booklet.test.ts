// `booklet` from the command line: order, facing pages, index, and what is said of a file that cannot be used.
import { describe, expect, it } from 'vitest';
import { readBooklet } from '../../../server/src/cli/booklet-file.ts';
import { booklet } from '../../../server/src/cli/commands/booklet.ts';
import { runCommandLine } from '../../../server/src/cli/run.ts';
import { bookletFront } from '../../../server/src/handout/booklet.ts';
import { openFonts } from '../../../server/src/handout/page/fonts.ts';
import { makeSheet } from '../../../server/src/handout/page/make.ts';
import { fontFiles, handoutTunes, look } from '../../support/handout.ts';
import { memoryIo } from '../../support/memory-io.ts';

const low = 'X:1\nT:Low Road\nI:bullfiddle tune=road version=low\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\nG,A,B,G,|D,4|]\n';
const high = 'X:2\nT:High Road\nI:bullfiddle tune=road version=high\nM:4/4\nL:1/4\nQ:1/4=120\nK:Em clef=bass\nGABG|D4|]\n';

async function call(file: unknown) {
  const io = memoryIo({ 'set/road.abc': `${low}\n${high}`, 'set/spring.json': JSON.stringify(file) });
  const code = await runCommandLine(['booklet', 'set/spring.json', '--out', 'out'], io, [booklet], '1');
  return { code, err: io.said.err, written: [...io.files.keys()].filter((name) => name.startsWith('out/')) };
}

describe('booklet', () => {
  it('writes one PDF', async () => {
    const tunes = [{ file: 'road.abc', version: 'low', facing: 'high', times: 2 }];
    expect(await call({ title: 'Spring', tunes })).toEqual({ code: 0, err: '', written: ['out/spring.pdf'] });
  });

  it('says of each wrong thing where it stands and what to write', async () => {
    expect((await call({ tunes: [{ file: 'road.abc', facing: 'high' }] })).err).toContain('tunes[0].facing: say which "version" it faces.');
    const inKey = async (key: string) => (await call({ tunes: [{ file: 'road.abc', version: 'low', key }] })).err;
    expect(await inKey('H')).toBe('set/spring.json: tunes[0]: "H" is no key; write one like D, Bb or Em.\n');
    expect(await inKey('Em')).toBe(
      'set/spring.json: tunes[0]: set/road.abc stands in G, and Em is of another mode; only the tonic can be moved.\n',
    );
    expect((await call({ tunes: [{ file: 'road.abc', version: 'low', facing: 'middle' }] })).err).toContain('no tune of road.abc fits');
    expect((await call({ tunes: [{ file: 'road.abc', number: 1, times: 'twice' }] })).err).toContain(
      'tunes[0].times: this must be a whole',
    );
  });
});

describe('its pages', () => {
  const [one, two] = [handoutTunes(low)[0]!, handoutTunes(high)[0]!];
  const fonts = openFonts(fontFiles);
  const front = bookletFront({
    title: 'Spring',
    date: '2026-02-03',
    tunes: [
      { tune: one, times: 3 },
      { tune: one, times: 1 },
      { tune: two, times: 0 },
    ],
  });

  it('put a pair on facing pages, an empty one before where needed, with bookmarks and page numbers to match', () => {
    const tunes = [
      { tune: one, starts: 'page' },
      { tune: one, starts: 'left' },
      { tune: two, starts: 'right' },
    ] as const;
    const { sheet } = makeSheet({ title: 'Spring', front, tunes, fonts, options: look, told: () => {} });
    expect(sheet.bookmarks.map(({ title, page }) => [title, page + 1])).toEqual([
      ['Spring', 1],
      ['Low Road', 2],
      ['Low Road', 4],
      ['High Road', 5],
    ]);
    const said = sheet.pages[0]!.placed.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : [])));
    expect(said.slice(said.indexOf('Lasts') + 1).slice(0, 6)).toEqual(['1', 'Low Road', '2', 'G', '3', '0:12']);
  });

  it('tell how long the tunes take together, and list them by key', () => {
    const { items } = front((tune) => tune + 2);
    const [order, keys] = items.flatMap((item) => (item.kind === 'table' ? [item.rows] : []));
    // Two bars of four beats at 120 are 4 seconds: three times through, and once.
    expect(order!.at(-1)).toEqual(['', 'Together', '', '', '', '0:16']);
    expect(keys!.slice(1).map(([key]) => key)).toEqual(['Em', 'G', 'G']);
    expect(keys![2]!.slice(3, 6)).toEqual(['4', 'no', '0.0']);
  });
});

describe('the demo booklet', () => {
  it('reads without a problem', async () => {
    const text = new TextDecoder().decode(await memoryIo().asset('demo/booklet.json'));
    expect(readBooklet(text).problems).toEqual([]);
  });
});
