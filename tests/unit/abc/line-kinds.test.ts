// How lines are told apart, what fields say, and the errors of each line.
import { describe, expect, it } from 'vitest';
import type { FieldValue, Line, ReadOptions, TextError } from '../../../server/src/abc/index.ts';
import { readBook } from '../../../server/src/abc/index.ts';

const linesOf = (text: string, options?: ReadOptions): readonly Line[] =>
  readBook(text, options).tunes[0]!.tree.lines.map(({ line }) => line);
const kindsOf = (text: string): string =>
  linesOf(text)
    .map(({ kind }) => kind)
    .join(' ');

/** Codes with the text they stand on. */
const errorsIn = (lines: readonly Line[]): readonly string[] =>
  lines.flatMap(({ text, errors }) =>
    errors.map(({ code, span }: TextError) => `${code} ${JSON.stringify(text.slice(span.from, span.to))}`),
  );

const errorsOfMusic = (music: string, version = ''): readonly string[] => errorsIn(linesOf(`${version}X:1\nT:t\nK:C\n${music}`).slice(3));

function fieldValue(field: string): FieldValue {
  const line = linesOf(`X:1\nT:t\n${field}\nK:C\n`)[2]!;
  return line.kind === 'field' ? line.field.value : { kind: 'text' };
}

describe('lines', () => {
  it('are told apart', () => {
    expect(kindsOf('X:1\nT:t\n% c\n%%x y\nK:C\nCDE\nw:a\n+:b\ns:!p!\n  % c\n\nfree\nX\n')).toBe(
      'field field comment directive field music lyrics lyrics symbols comment blank free free',
    );
    expect(kindsOf('X:1\nT:t\n+:u\nK:C\n%%begintext\nCDE\n\n%%endtext\nC\n')).toBe(
      'field field field-continuation field directive typeset typeset directive music',
    );
  });

  it('join continued fields with a space, over comments', () => {
    const line = linesOf('X:1\nT:one\n% between\n+:two % remark\nK:C\n')[1]!;
    expect(line.kind === 'field' && line.field.text).toBe('one two');
  });

  it('that begin with a note and a repeat sign are music, other letters with a colon are fields', () => {
    expect(kindsOf('X:1\nT:t\nK:C\nC:|\nZ:|\nX:|\nA:x\nP:A\nJ:x\n')).toBe('field field field music music music field field field');
  });

  it('begin tunes at X: alone', () => {
    expect(readBook('X:1\nK:C\nC\nX:2\nK:C\nX:|\n').tunes).toHaveLength(2);
  });

  it('end tunes at an empty line; without one the line before the next tune says so', () => {
    const unended = (text: string) =>
      readBook(text).tunes.map(({ tree }) =>
        tree.lines.flatMap(({ line }, i) =>
          line.errors.filter(({ code }) => code === 'text.tune-unended').map(({ span }) => [i, span.from]),
        ),
      );
    expect(unended('X:1\nT:a\nK:C\nCDE|\r\nX:2\nT:b\nK:C\nC\n')).toEqual([[[3, 3]], []]);
    expect(unended('X:1\nT:a\nK:C\nCDE|\n\nX:2\nT:b\nK:C\nC\n\nfree\nX:3\nK:C\n')).toEqual([[], [], []]);
  });

  it('keep a byte-order mark apart, so that places do not count it', () => {
    const book = readBook('\ufeffX:1\nK:C\nC\n');
    expect(book.header.lines.map(({ line }) => line.text)).toEqual(['\ufeff']);
    expect(book.tunes[0]!.at).toBe(1);
  });
});

describe('versions', () => {
  it.each([
    ['%abc-2.1\n', 'strict'],
    ['%abc-2.2\n', 'strict'],
    ['%abc-3.0\n', 'strict'],
    ['%abc-2.0\n', 'loose'],
    ['%abc\n', 'loose'],
    ['', 'loose'],
  ])('%j is read %s', (line, strictness) => {
    expect(readBook(`${line}X:1\nK:C\n`).tunes[0]!.tree.strictness).toBe(strictness);
  });

  it('make errors of what is otherwise a warning', () => {
    const severity = (version: string) => readBook(`${version}X:1\nT:t\nK:C\n+trill+C\n`).tunes[0]!.tree.lines[3]!.line.errors[0]!.severity;
    expect(severity('')).toBe('warning');
    expect(severity('%abc-2.1\n')).toBe('error');
  });

  it('may be set for one tune', () => {
    const [one, two] = readBook('X:1\nI:abc-version 2.1\nK:C\n\nX:2\nK:C\n').tunes;
    expect([one!.tree.strictness, two!.tree.strictness]).toEqual(['strict', 'loose']);
  });
});

describe('field values', () => {
  it.each([
    ['M:(2+3+2)/8', { kind: 'meter', meter: { kind: 'time', beats: [2, 3, 2], unit: 8, sign: null } }],
    ['M:C|', { kind: 'meter', meter: { kind: 'time', beats: [2], unit: 2, sign: 'C|' } }],
    ['L:1', { kind: 'unit', unit: { num: 1, den: 1 } }],
    ['Q:"Allegro" 1/4=120', { kind: 'tempo', tempo: { beats: [{ num: 1, den: 4 }], bpm: 120, words: 'Allegro', form: 'standard' } }],
    ['Q:3/8=50 "Slowly"', { kind: 'tempo', tempo: { beats: [{ num: 3, den: 8 }], bpm: 50, words: 'Slowly', form: 'standard' } }],
    ['Q:"Andante"', { kind: 'tempo', tempo: { beats: [], bpm: null, words: 'Andante', form: 'standard' } }],
    ['Q:120', { kind: 'tempo', tempo: { beats: [], bpm: 120, words: null, form: 'old' } }],
    ['Q:C3=40', { kind: 'tempo', tempo: { beats: [{ num: 3, den: 1 }], bpm: 40, words: null, form: 'old' } }],
    ['X:7', { kind: 'number', number: 7 }],
    ['U:T = !trill!', { kind: 'user-symbol', sign: 'T', meaning: '!trill!' }],
  ])('%s', (field, value) => {
    if (field.startsWith('X')) return expect(readBook(`${field}\nK:C\n`).tunes[0]!.tree.lines[0]!.line).toMatchObject({ field: { value } });
    expect(fieldValue(field)).toEqual(value);
  });

  it('keep the places of our own keys and values', () => {
    const value = fieldValue('I:bullfiddle part=bass allow="pluck.too-fast" thumb');
    expect(
      value.kind === 'instruction' && value.keyed.map(({ key, value: v, valueSpan }) => [key, v, valueSpan.from, valueSpan.to]),
    ).toEqual([
      ['part', 'bass', 18, 22],
      ['allow', 'pluck.too-fast', 30, 44],
      ['thumb', '', 51, 51],
    ]);
  });

  it.each(['M:x', 'L:', 'L:0', 'L:1/0', 'Q:fast', 'K:H', 'V:', 'P:(A', 'U:A=!p!', 'm:~G3', 'K:G clef=harp', 'V:1 octave=x'])(
    '%s is one error with a remedy',
    (field) => {
      const lines = linesOf(`X:1\nT:t\n${field.startsWith('K') ? '' : `${field}\n`}${field.startsWith('K') ? field : 'K:C'}\n`);
      const errors = lines.flatMap((line) => line.errors);
      expect(errors.map(({ code }) => code)).toEqual(['text.field-value']);
      expect(errors[0]!.message).toMatch(/Write |is no number/);
    },
  );
});

describe('errors of music', () => {
  it.each([
    ['C#D', ['text.reserved-sign "#"']],
    ['C ^ D', ['text.accidental-without-note "^"']],
    ['C0', ['text.length-zero "0"']],
    ['C99999', ['text.length-too-large "99999"']],
    ['"Am C|D', ['text.quote-unclosed "\\"Am C"']],
    ['[CE|D', ['text.chord-unclosed "[CE"']],
    ['[]D', ['text.chord-empty "[]"']],
    ['{gC|D', ['text.grace-unclosed "{gC"']],
    ['[K:D C|D', ['text.field-unclosed "[K:D C"']],
    ['C]D', ['text.sign-unopened "]"']],
    ['(1CD', ['text.tuplet-wrong "(1"']],
    ['C| 1 D', ['text.ending-spaced "1"']],
    ['[3-1 D', ['text.ending-wrong "3-1"']],
    ['C\\D', ['text.backslash-inside "\\\\"']],
    ['WC', ['text.symbol-undefined "W"']],
    ['!wobble!C', ['text.decoration-unknown "!wobble!"']],
    ['+trill+C', ['text.decoration-old-sign "+trill+"']],
    ['[I:decoration +]!p!C', ['text.decoration-other-sign "!p!"']],
    ['C>>>>D', ['text.broken-too-deep ">>>>"']],
    ['C,,,,,,,', ['text.octave-too-far "C,,,,,,,"']],
    ['C123é45D', ['text.unknown-sign "é45"']],
    ['[y:x]C', ['text.field-unknown "y:"']],
    ['C\n+:x', ['text.continuation-alone "+:"']],
    ['%%endtext', ['text.block-unopened "%%endtext"']],
    ['%%abc-include lost.abh', ['text.include-failed "%%abc-include lost.abh"']],
  ])('%s', (music, errors) => {
    expect(errorsOfMusic(music)).toEqual(errors);
  });

  it('sees a lone ! as a line break in loose reading, as an open decoration in strict', () => {
    expect(errorsOfMusic('C!D|')).toEqual([]);
    expect(errorsOfMusic('C!D|', '%abc-2.1\n')).toEqual(['text.decoration-unclosed "!"']);
  });

  it('sees a name still being typed as an open decoration', () => {
    expect(errorsOfMusic('C!sul D|')).toEqual(['text.decoration-unclosed "!sul"']);
    expect(errorsOfMusic('C!1')).toEqual(['text.decoration-unclosed "!1"']);
  });

  it('takes words for one error, and in a header for no end of it', () => {
    expect(errorsOfMusic('hello world this is text')).toEqual(['text.not-music "hello world this is text"']);
    expect(errorsIn(linesOf('X:1\nT:t\nsome words\nK:C\nC\n'))).toEqual(['text.not-music "some words"']);
    expect(kindsOf('X:1\nT:t\nsome words\nK:C\nC\n')).toBe('field field free field music');
  });

  it('reports music before K: once', () => {
    expect(errorsIn(linesOf('X:1\nT:t\nCDEF\nGABc\n'))).toEqual(['text.key-late "CDEF"']);
  });

  it('says what a text without tunes lacks', () => {
    expect(errorsIn(readBook('CDEF\n').header.lines.map(({ line }) => line))).toEqual(['text.no-tune "CDEF"']);
    expect(errorsIn(readBook('').header.lines.map(({ line }) => line))).toEqual(['text.no-tune ""']);
    expect(errorsIn(readBook('L:1/8\n').header.lines.map(({ line }) => line))).toEqual([]);
  });
});

describe('included files', () => {
  const files: Record<string, string> = {
    'a.abh': 'U:T=!slide!\nI:abc-include b.abh\n',
    'b.abh': 'm:~G3=GAG\n',
    'loop.abh': 'I:abc-include loop.abh\n',
  };
  const options: ReadOptions = { include: (name) => files[name] ?? null };

  it('define symbols and macros as if they stood here', () => {
    const line = linesOf('X:1\nT:t\nI:abc-include a.abh\nK:C\nTC~G3\n', options)[4]!;
    expect(line.kind === 'music' && line.items.map((item) => (item.kind === 'decoration' ? item.name : item.kind))).toEqual([
      'slide',
      'note',
      'macro',
      'line-end',
    ]);
  });

  it('that include themselves are told of and end', () => {
    expect(linesOf('X:1\nT:t\nI:abc-include loop.abh\nK:C\n', options)[2]!.errors.map(({ message }) => message)).toEqual([
      'loop.abh includes itself. Take one of the lines out.',
    ]);
    expect(linesOf('X:1\nT:t\nI:abc-include gone.abh\nK:C\n', options)[2]!.errors[0]!.message).toContain('gone.abh cannot be read');
  });
});
