// The TextMate grammar agrees with the tree on what is comment, field, note, bar, decoration and text.
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { grammarClasses, loadGrammar, treeClasses } from './support.ts';

let grammar: Awaited<ReturnType<typeof loadGrammar>>;
beforeAll(async () => {
  grammar = await loadGrammar();
});

interface Tally {
  readonly same: number;
  readonly differences: readonly string[];
}

/** Compares characters; white space and what is no music are left out. */
function compared(text: string): Tally {
  const lines = treeClasses(readBook(text));
  const coloured = grammarClasses(
    grammar,
    lines.map((line) => line.text),
  );
  let same = 0;
  const differences: string[] = [];
  for (const [i, line] of lines.entries()) {
    const wrong = [...line.text.matchAll(/\S/g)].find(
      ({ index }) => line.classes[index] !== undefined && line.classes[index] !== coloured[i]![index],
    );
    same += wrong === undefined ? line.text.length : 0;
    if (wrong !== undefined)
      differences.push(`${line.text} @${wrong.index}: tree ${line.classes[wrong.index]}, grammar ${coloured[i]![wrong.index]}`);
  }
  return { same, differences };
}

const tune = (body: string): string => `X:1\nT:t % said\nM:4/4\nL:1/8\nK:D clef=bass\n${body}\n`;

describe('grammar', () => {
  it.each([
    ['notes, lengths and accidentals', "^F,2 _B,,/2 =c''3/2 z4 Z2|"],
    ['bar lines of every shape', '|:D|E||F|]G[|A:|B::c:|:d|::e::|f.|g[|]'],
    ['endings', '|:D|1E:|2F|[1 G:|[2,3 A|]'],
    ['decorations, signs and pins', '!sulG!!4!B, .A, ~G uF !trill(!D +upbow+E'],
    ['chord symbols and annotations', '"Am"A,"^sul G"G, "_a|b"F'],
    ['chords and graces', '[D,A,]4 {g}A {/fg}B [!1!D,!4!A,]2'],
    ['tuplets, slurs, ties and broken rhythm', '(3D,E,F, (D,E,) .(F,G,) D,-D, E,>F,'],
    ['inline fields', 'D,4[K:G]G,4|[M:3/4]D,6|[r:careful]D,6|'],
    ['comments and continuations', 'D,4 % a comment | D\nE,4\\\nF,4\\ % joined\n% whole line\n G,4|'],
    ['lyrics and symbol lines', 'D,E,F,G,\nw:do re - mi* fa_ % la\ns:!1! * "^x" | !4!'],
    ['fields in the body', 'D,4|\nP:B\nK:G\nV:2 clef=bass\nN:free words | here\nI:bullfiddle part=bass\nE,4|'],
    ['typeset text', '%%begintext\n%%hello CDE\nplain words\n%%endtext\nD,4|'],
    ['text after a tune', 'D,4|\n\nSome words: A B C, not music.'],
    ['music that begins like a field', 'D:|\nE,4|\nu::\nB: a field all the same'],
  ])('agrees with the tree on %s', (_, body) => {
    expect(compared(tune(body)).differences).toEqual([]);
  });

  it('agrees on a file header and several tunes', () => {
    const text = `%abc-2.1\n% book\nM:4/4\n%%score 1 2\n\nFree words.\n\n${tune('D,4|')}\n\n${tune('[V:1]E,4|')}`;
    expect(compared(text).differences).toEqual([]);
  });

  it('agrees on every line of the demo book', () => {
    const folder = resolve(import.meta.dirname, '../../../media/demo');
    for (const name of readdirSync(folder).filter((file) => file.endsWith('.abc')))
      expect(compared(readFileSync(join(folder, name), 'utf8')).differences, name).toEqual([]);
  });

  it.skipIf(!corporaHere)('agrees on the corpora', () => {
    const tallies = corpusFiles().map(({ text }) => compared(text.replace(/^\uFEFF/, '')));
    const differences = tallies.flatMap((tally) => tally.differences);
    expect(differences).toEqual([]);
  });
});
