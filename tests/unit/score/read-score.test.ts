// What a score says: notes and marks with their places, ties, slurs, graces, lyrics, symbol lines, voices, declarations, errors of meaning.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { toText } from '../../../server/src/score/fraction.ts';
import type { Mark, Score, Voice } from '../../../server/src/score/index.ts';
import { readScore } from '../../../server/src/score/index.ts';
import { scoreOf, scoreOfMusic } from '../../support/trees.ts';

const HEAD = 'X:1\nT:t\nM:4/4\nL:1/8\nK:C\n';
const voiceOf = (music: string): Voice => scoreOfMusic(music).voices[0]!;

/** Text that spans of a tune of this music stand on. */
const at = (music: string, span: { from: number; to: number }): string => `${HEAD}${music}\n`.slice(span.from, span.to);

const nameOf = (mark: Mark): string => (mark.kind === 'decoration' ? mark.name : `${mark.kind} ${mark.text}`);
const marksOf = (music: string): readonly string[] => voiceOf(music).notes.map(({ marks }) => marks.map(nameOf).join(', '));
const errorsOf = (score: Score): readonly string[] => score.errors.map(({ code }) => code);

describe('notes', () => {
  it('carry places with their length and without their marks, through CRLF and astral text', () => {
    const text = `X:1\r\nT:🎻\r\nK:C\r\n"🎻"!1!^c3/2 [CE]2\r\n`;
    const book = readBook(text);
    const [first, chord] = readScore(book.header, book.tunes[0]!.tree).voices[0]!.notes;
    expect(text.slice(first!.from, first!.to)).toBe('^c3/2');
    expect(text.slice(chord!.from, chord!.to)).toBe('[CE]2');
    expect(chord!.heads.map((head) => text.slice(head.from, head.to))).toEqual(['C', 'E']);
  });

  it('have the written and the sounding pitch', () => {
    const head = scoreOf('X:1\nT:t\nK:C bass-8 octave=-1 transpose=2\nC\n').voices[0]!.notes[0]!.heads[0]!;
    expect([head.octave, head.written, head.midi]).toEqual([3, 48, 38]);
  });

  it('tie to heads of the same pitch only, and keep an accidental over the bar', () => {
    const [a, b, c] = voiceOf('[^F-A]4-[FB]4-|F4').notes;
    expect(a!.heads.map(({ tieTo }) => tieTo)).toEqual([{ note: 1, head: 0 }, null]);
    expect(b!.heads[0]!.tied).toBe(true);
    expect(b!.heads[0]!.tieTo).toEqual({ note: 2, head: 0 });
    expect(c!.heads[0]!.midi).toBe(66);
  });

  it('say where a tie sign stands even if nothing takes it up', () => {
    const music = 'C-D';
    expect(at(music, voiceOf(music).notes[0]!.heads[0]!.tieMark!)).toBe('-');
    expect(voiceOf(music).notes[0]!.heads[0]!.tieTo).toBeNull();
  });

  it('have graces before them without time', () => {
    const notes = voiceOf('C{/ga}D').notes;
    expect(notes.map(({ kind, graceOf }) => [kind, graceOf])).toEqual([
      ['note', null],
      ['grace', 3],
      ['grace', 3],
      ['note', null],
    ]);
    expect(notes.map(({ onset, duration }) => `${toText(onset)} ${toText(duration)}`)).toEqual(['0 1/8', '1/8 0', '1/8 0', '1/8 1/8']);
  });

  it('pass graces over in broken rhythm', () => {
    const lengths = (music: string) =>
      voiceOf(music)
        .notes.filter(({ kind }) => kind === 'note')
        .map(({ duration }) => toText(duration));
    expect(lengths('A<{g}B A{g}<B')).toEqual(['1/16', '3/16', '1/16', '3/16']);
  });

  it('of a macro all stand on its call', () => {
    const text = 'X:1\nT:t\nL:1/8\nm:~n2=n/o/n/m/\nK:C\nC~G2C\n';
    const notes = scoreOf(text).voices[0]!.notes;
    expect(notes.map(({ from, to }) => text.slice(from, to))).toEqual(['C', '~G2', '~G2', '~G2', '~G2', 'C']);
  });

  it('of an overlay are in a layer of their own', () => {
    expect(voiceOf('c4d4&C8|e8').notes.map(({ layer, onset }) => `${layer} ${toText(onset)}`)).toEqual(['0 0', '0 1/2', '1 0', '0 1']);
  });
});

describe('marks', () => {
  it('come from before the note, from letters and from quotes', () => {
    expect(marksOf('!1!"Am""^sul G".C uD "_low"E')).toEqual(['1, chord-symbol Am, annotation sul G, staccato', 'upbow', 'annotation low']);
  });

  it('of U: signs have the name set and stand on the sign', () => {
    const text = 'X:1\nT:t\nU:p=!sulG!\nU:q="^sul D"\nK:C\npCqD\n';
    const marks = scoreOf(text).voices[0]!.notes.flatMap((note) => note.marks);
    expect(marks.map((mark) => [nameOf(mark), text.slice(mark.from, mark.to)])).toEqual([
      ['sulG', 'p'],
      ['annotation sul D', 'q'],
    ]);
  });

  it('inside a chord belong to their head', () => {
    const note = voiceOf('!accent![!1!!sulE!E,,!0!A,,]2').notes[0]!;
    expect(note.marks.map(nameOf)).toEqual(['accent']);
    expect(note.heads.map(({ marks }) => marks.map(nameOf))).toEqual([['1', 'sulE'], ['0']]);
  });

  it('before a bar line are the line’s, texts wait for the next note', () => {
    expect(marksOf('D!fermata!"^sul A"|E')).toEqual(['', 'annotation sul A']);
  });

  it('of symbol lines go to notes as lyrics do, past rests and graces', () => {
    const music = 'C z {g}D E|F G\ns:!1! * !3!!sulD!|"^x"\ns:!p!\nA\ns:!4!';
    const notes = voiceOf(music).notes.filter(({ kind }) => kind === 'note');
    expect(notes.map(({ marks }) => marks.map(nameOf).join(' '))).toEqual(['1 p', '', '3 sulD', 'annotation x', '', '4']);
    expect(at(music, notes[2]!.marks[1]!)).toBe('!sulD!');
    expect(notes[0]!.marks[0]!.source).toBe('symbol-line');
  });
});

describe('slurs', () => {
  it('nest, begin and end on one note, and may be phrases', () => {
    const slurs = voiceOf('(C(DE)F) (C(D)E) .(GA)').slurs;
    expect(slurs.map(({ first, last, dotted }) => [first, last, dotted])).toEqual([
      [1, 2, false],
      [0, 3, false],
      [5, 5, false],
      [4, 6, false],
      [7, 8, true],
    ]);
  });

  it('may begin on a grace', () => {
    expect(voiceOf('{(g}A)').slurs.map(({ first, last }) => [first, last])).toEqual([[0, 1]]);
  });
});

describe('bars', () => {
  it('know repeats, endings, parts, and their length', () => {
    const { bars, parts } = voiceOf('P:A\nG2|:C8|1D8:|2E4||\nP:B\n|:F8::G8:|');
    expect(bars.map((bar) => [bar.part, toText(bar.duration), bar.startRepeats, bar.endRepeats, bar.ending.join()])).toEqual([
      ['A', '1/4', 0, 0, ''],
      ['A', '1', 1, 0, ''],
      ['A', '1', 0, 1, '1'],
      ['A', '1/2', 0, 0, '2'],
      ['B', '1', 1, 1, ''],
      ['B', '1', 1, 1, ''],
    ]);
    expect(bars.map(({ sectionEnd }) => sectionEnd)).toEqual([false, false, false, true, false, false]);
    expect(parts.map(({ label, bar }) => `${label} ${bar}`)).toEqual(['A 0', 'B 4']);
  });

  it('do not multiply where signs follow each other', () => {
    expect(voiceOf('|:C8|\n|D8|\n|:E8:|').bars).toHaveLength(3);
  });

  it('lie on the text of their own voice', () => {
    const text = 'X:1\nT:t\nM:4/4\nL:1/8\nV:1\nV:2\nK:C\n[V:1]C8|D8|\n[V:2]E8|F4\n[V:1]G8|\n';
    const { voices } = scoreOf(text);
    expect(voices.map(({ bars }) => bars.map(({ from, to }) => text.slice(from, to)))).toEqual([
      ['C8|', 'D8|', 'G8|'],
      ['E8|', 'F4'],
    ]);
  });

  it('of many rests ask for as many times the meter', () => {
    expect(voiceOf('Z3|C8').bars.map(({ nominal, duration }) => [toText(nominal!), toText(duration)])).toEqual([
      ['3', '3'],
      ['1', '1'],
    ]);
  });
});

describe('lyrics', () => {
  const sung = (music: string): string =>
    voiceOf(music)
      .lyrics.map(({ note, verse, text, hyphen }) => `${note}.${verse} ${text}${hyphen ? '-' : ''}`)
      .join(' | ');

  it('follow notes with holds, skips, bars and hyphens', () => {
    expect(sung('CDEF|G2A2\nw:a-b c_|*d')).toBe('0.1 a- | 1.1 b | 2.1 c | 5.1 d');
    expect(sung('CDEF\nw:time~of ste\\-p b--c')).toBe('0.1 time of | 1.1 ste-p | 2.1 b- | 4.1 c'.replace(' | 4.1 c', ''));
  });

  it('begin after the last lyrics, and are verses when adjacent', () => {
    expect(sung('CD|\nEF|\nw:a b c\nw:x y\nGA\nw:g')).toBe('0.1 a | 1.1 b | 2.1 c | 0.2 x | 1.2 y | 4.1 g');
  });

  it('go on in +: lines', () => {
    expect(sung('CDEF\nw:do re\n% c\n+:mi fa')).toBe('0.1 do | 1.1 re | 2.1 mi | 3.1 fa');
  });
});

describe('voices', () => {
  it('come in the order of the header, each with its own key, meter and accidentals', () => {
    const { voices } = scoreOf('X:1\nT:t\nM:4/4\nL:1/8\nV:low clef=bass\nV:high\nK:G\n[V:high]^c8|[K:C]F8|\n[V:low]C,8|F,8|\n');
    expect(voices.map(({ id, clef }) => `${id} ${clef.shape}`)).toEqual(['low bass', 'high treble']);
    expect(voices.map(({ notes }) => notes.map(({ heads }) => heads[0]!.midi))).toEqual([
      [48, 54],
      [73, 65],
    ]);
  });

  it('keep their key when K: names a clef alone', () => {
    const voice = scoreOf('X:1\nT:t\nK:G\nF[K:clef=bass]F\n').voices[0]!;
    expect(voice.notes.map(({ heads }) => heads[0]!.midi)).toEqual([66, 66]);
    expect(voice.clefChanges.map(({ clef }) => clef.shape)).toEqual(['bass']);
  });

  it('have declarations of every scope, with places of the tune', () => {
    const head = 'I:bullfiddle hand=small\n\n';
    const tune = 'X:1\nT:t\nI:bullfiddle part=bass\nV:b\nI:bullfiddle tuning=solo\nK:C\nC[I:bullfiddle hand-stop=4]D\n';
    const book = readBook(head + tune);
    const { instructions } = readScore(book.header, book.tunes[0]!.tree).voices[0]!;
    expect(instructions.map(({ scope, before }) => `${scope} ${before}`)).toEqual(['file 0', 'tune 0', 'voice 0', 'inline 1']);
    const values = instructions.map(({ keyed, scope }) =>
      (scope === 'file' ? head : tune).slice(keyed[0]!.valueSpan.from, keyed[0]!.valueSpan.to),
    );
    expect(values).toEqual(['small', 'bass', 'solo', '4']);
  });
});

describe('errors of meaning', () => {
  it.each([
    ['-C', 'text.tie-without-note'],
    ['C -C', 'text.tie-spaced'],
    ['(CD', 'text.slur-unclosed'],
    ['CD)', 'text.slur-unopened'],
    ['>C', 'text.broken-without-note'],
    ['C>|D', 'text.broken-without-note'],
    ['C2>D', 'text.broken-unequal'],
    ['(3CD|EFGA', 'text.tuplet-unfinished'],
    ['CD\nw:a b c', 'text.lyrics-too-many'],
    ['CD\ns:!1! !2! !3!', 'text.symbols-too-many'],
  ])('%s', (music, code) => expect(errorsOf(scoreOfMusic(music))).toEqual([code]));

  it.each([
    ['X:1\nK:C\n', 'text.title-missing'],
    ['X:1\nM:C\nT:t\nK:C\n', 'text.title-late'],
    ['X:1\nT:t\n', 'text.key-missing'],
    ['X:1\nT:t\nK:C\n%%begintext\nhello\n\nC\n', 'text.block-unclosed'],
    ['X:1\nT:t\nP:AC\nK:C\nP:A\nC\n', 'text.part-unknown'],
  ])('%j', (text, code) => expect(errorsOf(scoreOf(text))).toEqual([code]));

  it('leave the bars after them as they are', () => {
    const good = voiceOf('C8|D2E2F2G2|')
      .notes.slice(-4)
      .map(({ onset, duration, heads }) => [toText(onset), toText(duration), heads[0]!.midi]);
    for (const bad of ['C8>|', '(3C8|', '"Am C8|C8|', '[CE|C8|', '{gC|C8|', '!C8|', 'C8-|']) {
      const after = voiceOf(`${bad}D2E2F2G2|`)
        .notes.slice(-4)
        .map(({ duration, heads }) => [toText(duration), heads[0]!.midi]);
      expect(after, bad).toEqual(good.map(([, duration, midi]) => [duration, midi]));
    }
  });
});
