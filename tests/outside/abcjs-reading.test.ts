// abcjs 6.7.2 as a second reader: the same pitches at the same onsets, repeats played out, on tunes of our own and on every tune of the corpora.
// Where abcjs does not follow the standard's text, the difference is named and shown to be the only one.
import abcjs from 'abcjs';
import { describe, expect, it } from 'vitest';
import { printBook, readBook } from '../../server/src/abc/index.ts';
import { toNumber } from '../../server/src/score/fraction.ts';
import { playOut, readScore } from '../../server/src/score/index.ts';
import { corporaHere, corpusFiles } from '../support/corpora.ts';

/** Graces, decorations, texts and lyrics change how abcjs plays, which the standard leaves to players: they are left out on its side. */
const bare = (text: string): string =>
  text.replace(/^(w|W|s|%%(?!propagate)).*(\r\n|\n|\r|$)/gm, '').replace(/\{[^}\n]*\}|![^!\n]*!|\+[a-z]+\+|"[^"\n]*"/g, '');

interface AudioEvent {
  readonly cmd: string;
  readonly start: number;
  readonly pitch: number;
}

function theirs(text: string): readonly string[] {
  const tune = abcjs.parseOnly(bare(text))[0] as unknown as { setUpAudio(options: object): { tracks: readonly AudioEvent[][] } };
  const { tracks } = tune.setUpAudio({ chordsOff: true });
  return tracks
    .flatMap((track) => track.filter(({ cmd }) => cmd === 'note').map(({ start, pitch }) => `${start.toFixed(4)} ${pitch}`))
    .sort();
}

function ours(text: string): readonly string[] {
  const book = readBook(text);
  const { voices } = playOut(readScore(book.header, book.tunes[0]!.tree));
  return voices.flatMap(({ events }) => events.map(({ onset, midi }) => `${toNumber(onset).toFixed(4)} ${midi}`)).sort();
}

/** Accidentals by octave, as abcjs reads them: the standard's default is every octave (11.3). */
const byOctave = (text: string): string => text.replace(/^K:/m, '%%propagate-accidentals octave\nK:');

const head = (key: string): string => `X:1\nT:t\nM:4/4\nL:1/8\nK:${key}\n`;

describe('abcjs and we hear the same', () => {
  it.each([
    ['lengths', 'C2 D/ E// F3/2 G3/4 A8|'],
    ['broken rhythm', 'C>D E<F G>>A B<<c|'],
    ['tuplets', '(3CDE (3:2:2G4C2 (2CD (4CDEF|'],
    ['accidentals in their octave', '^F F =F F|F _B B ^^C C|'],
    ['ties over a bar', '^F4- F2-F2|F- F z4 G2|'],
    ['chords', '[CEG]2 [C-E]2 [CF]2 [^CE]C|'],
    ['repeats and endings', '|:C4 D4|1 E8:|2 F8|]|:G8:|'],
    ['a key and a meter change', 'F4[K:D]F4|[M:3/4]F6|[L:1/4]F3|'],
  ])('%s', (_, music) => {
    for (const key of ['C', 'D', 'Bb', 'Em', 'A mix']) expect(ours(head(key) + music), key).toEqual(theirs(head(key) + music));
  });

  it('once accidentals are read by octave', () => {
    const text = `${head('C')}^F f ^C c'|`;
    expect(ours(text)).not.toEqual(theirs(text));
    expect(ours(byOctave(text))).toEqual(theirs(text));
  });
});

/** Tunes on which abcjs goes another way, and why. */
const DIFFERENCES: Readonly<Record<string, 'accidentals by octave' | 'a Z:| line'>> = {
  'Elsie Marley': 'accidentals by octave',
  'Long Scale': 'accidentals by octave',
  // Its body holds `Z:|` on a line of its own: by section 3 no field of the body, so a rest and a repeat sign; abcjs takes it for a field.
  'Hanover Waltz. LIT.081': 'a Z:| line',
};

describe('the corpora', () => {
  it.skipIf(!corporaHere)('sound as abcjs plays them, but for the differences named', () => {
    const met = new Set<string>();
    let tunes = 0;
    for (const { path, text } of corpusFiles()) {
      const book = readBook(text);
      for (const { tree } of book.tunes) {
        const one = printBook({ header: book.header, tunes: [{ at: book.header.length, tree }] });
        const { title } = readScore(book.header, tree);
        tunes++;
        const difference = DIFFERENCES[title];
        if (difference) met.add(title);
        if (difference === 'accidentals by octave') expect(ours(byOctave(one)), title).toEqual(theirs(one));
        else if (difference === 'a Z:| line') expect(one).toMatch(/^Z:\|/m);
        else expect(ours(one), `${title} in ${path}`).toEqual(theirs(one));
      }
    }
    expect(tunes).toBeGreaterThan(200);
    expect([...met].sort()).toEqual(Object.keys(DIFFERENCES).sort());
  });
});
