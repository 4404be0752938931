// Lines and columns, and places moved through edits and copies.
import { describe, expect, it } from 'vitest';
import { lineIndex } from '../../../server/src/text/line-index.ts';
import { offsetMap, throughEdits } from '../../../server/src/text/offset-map.ts';

describe('the line index', () => {
  it('counts LF, CRLF and CR, in UTF-16 units', () => {
    const index = lineIndex('a\n🎻b\r\nc\rd');
    expect(index.lineCount).toBe(4);
    expect([0, 1, 2, 4, 5, 7, 8, 9, 99].map((at) => index.positionAt(at))).toEqual([
      { line: 0, character: 0 },
      { line: 0, character: 1 },
      { line: 1, character: 0 },
      { line: 1, character: 2 },
      { line: 1, character: 3 },
      { line: 2, character: 0 },
      { line: 2, character: 1 },
      { line: 3, character: 0 },
      { line: 3, character: 1 },
    ]);
  });

  it('keeps columns within their line', () => {
    const index = lineIndex('ab\r\ncd');
    expect(index.offsetAt({ line: 0, character: 99 })).toBe(2);
    expect(index.offsetAt({ line: 1, character: 1 })).toBe(5);
    expect(index.offsetAt({ line: 9, character: 0 })).toBe(6);
    expect(index.offsetAt({ line: -1, character: 5 })).toBe(0);
  });
});

describe('places', () => {
  it('move with edits before them and are lost inside them', () => {
    const edits = [
      { span: { from: 2, to: 4 }, insert: 'xyz' },
      { span: { from: 8, to: 8 }, insert: '!' },
    ];
    expect([0, 2, 3, 4, 7, 8, 9].map((at) => throughEdits(edits, at))).toEqual([0, 2, null, 5, 8, 10, 11]);
  });

  it('move between a text and its copy', () => {
    const map = offsetMap([
      { source: 0, made: 0, length: 3 },
      { source: 5, made: 3, length: 4 },
    ]);
    expect([0, 2, 4, 6].map(map.toSource)).toEqual([0, 2, 6, 8]);
    expect([0, 4, 5, 9].map(map.toMade)).toEqual([0, 3, 3, 7]);
  });
});
