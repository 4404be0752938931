// Reading measured: text to timed notes against abcjs `parseOnly` on the corpora, and one key in a book of 200 tunes against one in a single tune.
import abcjs from 'abcjs';
import type { Book } from '../../server/src/abc/index.ts';
import { printBook, readBook, rereadBook } from '../../server/src/abc/index.ts';
import { readScore } from '../../server/src/score/index.ts';
import { applyEdits } from '../../server/src/text/span.ts';
import { corpusFiles } from '../support/corpora.ts';

/** The shortest of `rounds` runs, in milliseconds. */
function shortest(rounds: number, run: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rounds; i++) {
    const from = performance.now();
    run();
    best = Math.min(best, performance.now() - from);
  }
  return best;
}

/** Sounding notes of a tune as abcjs gives them: pitches by letter and octave steps, in the order of the text. */
function theirPitches(text: string): string {
  const tune = abcjs.parseOnly(text)[0]!;
  const pitches: number[] = [];
  for (const line of tune.lines)
    for (const staff of line.staff ?? [])
      for (const voice of staff.voices ?? [])
        for (const element of voice) if (element.el_type === 'note') for (const { pitch } of element.pitches ?? []) pitches.push(pitch);
  return pitches.join(' ');
}

/** The same of ours: steps above middle C. */
function ourPitches(text: string): string {
  const book = readBook(text);
  const score = readScore(book.header, book.tunes[0]!.tree);
  const steps = score.voices.flatMap(({ notes }) =>
    notes
      .filter(({ kind }) => kind === 'note')
      .flatMap(({ heads }) => heads.map(({ letter, octave }) => 'CDEFGAB'.indexOf(letter) + 7 * (octave - 4))),
  );
  return steps.join(' ');
}

const all = corpusFiles().flatMap(({ text }) => {
  const book = readBook(text);
  return book.tunes.map(({ tree }) => printBook({ header: book.header, tunes: [{ at: book.header.length, tree }] }));
});
const tunes = all.filter((text) => theirPitches(text) === ourPitches(text));
console.log(
  `${tunes.length} of ${all.length} corpus tunes give the same pitches here and in abcjs; these are measured (${tunes.join('').length} signs)`,
);

if (tunes.length > 0) {
  const scoresOf = (book: Book): void => {
    for (const { tree } of book.tunes) readScore(book.header, tree);
  };
  const each = (run: (text: string) => unknown): void => {
    for (const text of tunes) run(text);
  };
  const floor = shortest(9, () => {
    let sum = 0;
    for (const text of tunes) for (let i = 0; i < text.length; i++) sum += text.charCodeAt(i);
    if (sum === 1) console.log(sum);
  });
  const tree = shortest(9, () => each((text) => readBook(text)));
  const notes = shortest(9, () => each((text) => scoresOf(readBook(text))));
  const theirs = shortest(5, () => each((text) => abcjs.parseOnly(text)));
  console.log(`text to timed notes: ${(theirs / notes).toFixed(1)} times as fast as abcjs parseOnly (goal 10)`);
  console.log(
    `text to tree: ${(theirs / tree).toFixed(1)} times; visiting each sign once is ${(notes / floor).toFixed(0)} times faster than timed notes`,
  );
}

/** One typed sign in the middle of a book: the tree read again and the edited tune's notes, milliseconds, and back. */
function keyIn(count: number): number {
  const body = 'G,2 A,2 B,2 D2|E,2 G,2 A,2 B,2|"^sul G"!1!D2 E2 (F2 G2)|A,4 D4|\n';
  const text = Array.from(
    { length: count },
    (_, i) => `X:${i + 1}\nT:tune ${i + 1}\nM:4/4\nL:1/8\nQ:1/2=90\nK:G clef=bass\n${body.repeat(8)}\n`,
  ).join('');
  const at = text.indexOf('E2', text.indexOf('K:', Math.floor(text.length / 2)));
  const type = [{ span: { from: at, to: at + 1 }, insert: 'F' }];
  const undo = [{ span: { from: at, to: at + 1 }, insert: 'E' }];
  const typed = applyEdits(text, type);
  const start = readBook(text);
  const index = start.tunes.findLastIndex((tune) => tune.at <= at);
  return shortest(200, () => {
    const once = rereadBook(start, type, typed).book;
    readScore(once.header, once.tunes[index]!.tree);
    const back = rereadBook(once, undo, text).book;
    readScore(back.header, back.tunes[index]!.tree);
  });
}

const one = keyIn(1) / 2;
const many = keyIn(200) / 2;
console.log(
  `one key, tree and notes of the edited tune: ${many.toFixed(3)} ms in a book of 200 tunes (goal under 2), ${(many / one).toFixed(2)} times that in a book of one`,
);
