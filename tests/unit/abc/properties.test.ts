// Properties of reading that hold for every text: it prints back, items tile their lines, reading again equals reading.
import { describe, expect, it } from 'vitest';
import { printBook, readBook, rereadBook } from '../../../server/src/abc/index.ts';
import { readScore } from '../../../server/src/score/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { randomEdit, randomText, seeded } from '../../support/random.ts';
import { faultOf, readAll } from '../../support/trees.ts';

const BOOK =
  'L:1/8\n\nX:1\nT:one\nM:4/4\nK:G\n|:GABc "^sul G"!1!dedB|[M:3/4](3gag fed:|\nw:la la\n\nX:2\nT:two\nU:T=!trill!\nK:C\nTC>D [CE]2-|[CE]2|\n';

describe('any text', () => {
  it('prints back byte for byte, its items tiling each line', () => {
    const random = seeded(1);
    for (let round = 0; round < 500; round++) {
      const text = randomText(random, random.below(60));
      const book = readBook(text);
      expect(faultOf(book, text), JSON.stringify(text)).toBeNull();
      expect(printBook(book)).toBe(text);
      readAll(book);
    }
  });

  it.skipIf(!corporaHere)('of the corpora prints back byte for byte', () => {
    for (const { path, text } of corpusFiles()) {
      for (const variant of [text, text.replaceAll('\r\n', '\n').replaceAll('\n', '\r\n'), `\ufeff${text}`]) {
        expect(faultOf(readBook(variant), variant), path).toBeNull();
        expect(printBook(readBook(variant))).toBe(variant);
      }
    }
  });
});

describe('reading again', () => {
  it('equals reading from scratch after every random edit', () => {
    const random = seeded(2);
    let text = BOOK;
    let book = readBook(text);
    for (let round = 0; round < 400; round++) {
      if (round % 40 === 0) {
        text = BOOK;
        book = readBook(text);
      }
      const edit = randomEdit(random, text);
      const next = applyEdits(text, [edit]);
      book = rereadBook(book, [edit], next).book;
      const fresh = readBook(next);
      expect(book, `${JSON.stringify(text)} edited by ${JSON.stringify(edit)}`).toEqual(fresh);
      expect(book.tunes.map(({ tree }) => readScore(book.header, tree))).toEqual(
        fresh.tunes.map(({ tree }) => readScore(fresh.header, tree)),
      );
      text = next;
    }
  });

  it('takes several edits at once', () => {
    const edits = [
      { span: { from: 0, to: 5 }, insert: 'L:1/16' },
      { span: { from: BOOK.indexOf('GABc'), to: BOOK.indexOf('GABc') + 1 }, insert: 'A' },
      { span: { from: BOOK.length, to: BOOK.length }, insert: 'z' },
    ];
    const text = applyEdits(BOOK, edits);
    expect(rereadBook(readBook(BOOK), edits, text).book).toEqual(readBook(text));
  });

  it('reads one line of the edited tune and keeps every other tree', () => {
    const tunes = Array.from({ length: 200 }, (_, i) => `X:${i + 1}\nT:tune ${i + 1}\nK:C\nCDEF GABc|\ncBAG FEDC|\nC8|]\n\n`);
    const text = tunes.join('');
    const old = readBook(text);
    const at = text.indexOf('cBAG', old.tunes[100]!.at);
    const edit = { span: { from: at, to: at + 1 }, insert: 'd' };
    const { book, reuse } = rereadBook(old, [edit], applyEdits(text, [edit]));
    expect(reuse).toEqual({ tunesRead: 1, tunesReused: 199, linesRead: 1, linesReused: 6 });
    for (const [i, { tree }] of book.tunes.entries()) if (i !== 100) expect(tree).toBe(old.tunes[i]!.tree);
  });

  it('reads the lines after a sign is set anew, and only those', () => {
    const text = 'X:1\nT:t\nK:C\nCDE\nTC\nU:T=!trill!\nTD\nE\n';
    const at = text.indexOf('trill');
    const edit = { span: { from: at, to: at + 5 }, insert: 'roll' };
    const { reuse } = rereadBook(readBook(text), [edit], applyEdits(text, [edit]));
    expect(reuse).toEqual({ tunesRead: 1, tunesReused: 0, linesRead: 3, linesReused: 5 });
  });
});
