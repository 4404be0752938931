// Work against size: long and deeply nested inputs of every kind, doubled twice. Prints each kind whose time grows by more than 2.2 at each doubling.
import { readBook } from '../../server/src/abc/index.ts';
import { readAll } from '../support/trees.ts';

const SIZES = [50_000, 100_000, 200_000];
const LONGEST = 1_000_000;
const HEAD = 'X:1\nT:t\nL:1/8\nK:C\n';
const BODIES = [
  '[',
  ']',
  '{',
  '}',
  '(',
  ')',
  '"',
  '!',
  '+',
  '|',
  ':',
  '|:',
  ':|',
  '[1',
  '[K:',
  '[K:|',
  '[r:x',
  '[r:x]',
  '{/',
  '(3',
  '(3:',
  '^',
  '^^',
  'C',
  'C,',
  'C/',
  'C9',
  'C-',
  '(C',
  'C)',
  '(C)',
  '[CE]',
  '[C-E-]',
  '{g}',
  'C&',
  '&',
  'Z',
  'Z999|',
  '>',
  'C>',
  '!a',
  '!trill!',
  '"a',
  '"a"',
  '~',
  'T',
  '$',
  '\\',
  '\\\n',
  '%',
  '\n',
  '\n\n',
  'X:1\n',
  'w:a\n',
  'C\nw:a\n',
  'C\ns:!p!\n',
  'C|\nw:|\n',
  '+:x\n',
  'T:x\n+:y\n',
  'V:1\n',
  '[V:1]C',
  'V:v9\nC\n',
  'P:A\nC|',
  'U:T=!trill!\n',
  'm:~x=CDEF\n',
  '~G3',
  '%%x\n',
  '%%begintext\n',
  'I:a b\n',
  'I:bullfiddle a=b ',
  'K:C ^f ',
  'M:1+',
  'Q:1/4 ',
  '(3:2:9999',
  'a|1 ',
  '|:C:|1',
  'y',
  '#',
  ' ',
  '\r',
  '\t',
  '🎻',
  '\0',
  'C:|\n',
  'K:G\nF',
  '[L:1/16]C',
  'I:bullfiddle x=1\n',
  '|:::::C:::::|',
];
const WHOLE = [
  'X:1\n',
  'L:1/8\n',
  '%',
  '%%',
  '\n',
  'T',
  'P:(',
  'X:1\nP:',
  'X:1\nK:C',
  'X:1\nQ:"',
  'X:1\nM:',
  'X:1\nV:1 a=',
  'X:1\nU:',
  'X:1\nm:~n=n',
  'X:1\nm:~=CDEFGABc\nK:C\n~',
  'X:1\nV:a\n',
  'X:1\nI:bullfiddle a=b\n',
];

/** Time of this program alone, whatever else the machine does. */
const milliseconds = (text: string): number => {
  const from = process.cpuUsage();
  readAll(readBook(text));
  return process.cpuUsage(from).user / 1_000;
};

const filled = (head: string, piece: string, size: number): string => head + piece.repeat(Math.ceil(size / piece.length));
const kinds = [
  ...BODIES.map((piece) => ({ name: `body of ${JSON.stringify(piece)}`, head: HEAD, piece })),
  ...WHOLE.map((piece) => ({ name: `text of ${JSON.stringify(piece)}`, head: '', piece: piece.at(-1)! })),
];
for (const kind of WHOLE)
  kinds.push(
    { name: `repeated ${JSON.stringify(kind)}`, head: '', piece: kind },
    { name: `long value ${JSON.stringify(kind)}`, head: kind, piece: 'a1' },
  );

/** The shortest of several runs, so that other work on the machine and the collector count for little. */
const shortest = (text: string, runs: number): number => Math.min(...Array.from({ length: runs }, () => milliseconds(text)));

const timesOf = (head: string, piece: string, runs: number): readonly number[] =>
  SIZES.map((size) => shortest(filled(head, piece, size), runs));

/** Work that grows too fast does so at both doublings; growth in short times is noise. */
const isSteep = (times: readonly number[]): boolean => times.at(-1)! > 20 && times.slice(1).every((time, i) => time > 2.2 * times[i]!);

let worst = 0;
let steep = 0;
for (const { name, head, piece } of kinds) {
  const first = timesOf(head, piece, 3);
  // A second look, at more runs: what was noise is gone then.
  const times = isSteep(first) ? timesOf(head, piece, 12) : first;
  if (isSteep(times)) {
    steep++;
    console.log(`${name}: ${times.map(Math.round).join(', ')} ms`);
  }
  worst = Math.max(worst, milliseconds(filled(head, piece, LONGEST)));
}
console.log(
  `${kinds.length} kinds, ${steep} of them steeper than 2.2 at both doublings; the slowest 1,000,000 signs took ${Math.round(worst)} ms`,
);
process.exitCode = steep > 0 ? 1 : 0;
