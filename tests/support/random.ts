// Random texts for property tests and fuzzing: seeded, so that any failure can be had again.
import type { Edit } from '../../server/src/text/span.ts';

export interface Random {
  /** A whole number from 0 to `below` - 1. */
  below(limit: number): number;
  pick<T>(from: ArrayLike<T>): T;
}

/** A small generator of the xorshift kind (Marsaglia 2003), 32 bits of state. */
export function seeded(seed: number): Random {
  let state = (seed ^ 0x9e3779b9) | 0 || 1;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  const below = (limit: number): number => next() % limit;
  return { below, pick: (from) => from[below(from.length)]! };
}

/** Pieces of tune text that matter to a reader, whole and broken. */
const PIECES = [
  ...'abcdefgABCDEFGzxZXy|:[](){}<>-_=^,\'/"!+.~&$%\\`@#*;? \t\n\r0123456789HLMOPSTuv',
  '\r\n',
  '\n\n',
  '\nX:2\n',
  'X:1\nT:t\nK:C\n',
  '\nK:G\n',
  '[K:D]',
  '[M:3/4]',
  '[L:1/16]',
  '[V:2]',
  '\nV:1\n',
  '\nw:a-b c_|*\n',
  '\ns:!p! * "^x"\n',
  '\n+:more\n',
  '\n%%text x\n',
  '\n%%begintext\n',
  '\n%%endtext\n',
  '\nU:T=!trill!\n',
  '\nm:~n2=n/o/n/m/\n',
  '\nm:~G3=GAG\n',
  '~G3',
  '\nP:A\n',
  'P:((AB)2A)3\n',
  '(3',
  '(3:2:4',
  '|:',
  ':|',
  '::',
  '|1',
  ':|2',
  '[1,3-5',
  '!trill!',
  '!sulG!',
  '"^sul G"',
  '"Am"',
  '{/ga}',
  '[CEG]2',
  '[C-E]',
  '>>',
  '.(',
  '.-',
  '^^',
  '__',
  '\\\n',
  '\nI:bullfiddle part=bass\n',
  '[I:linebreak !]',
  '[I:decoration +]',
  '\nI:propagate-accidentals octave\n',
  '%abc-2.1\n',
  '\ufeff',
  '🎻',
  'é',
  '\0',
  '\u2028',
  '\nT:x\n',
  '\nQ:1/4=120\n',
  '\nL:1/8\n',
  '\nr:note\n',
  '\nI:abc-include x.abh\n',
];

/** One random change of a text: something put in, taken out, replaced, or copied from elsewhere in it. */
export function randomEdit(random: Random, text: string): Edit {
  const from = random.below(text.length + 1);
  const length = random.below(4) === 0 ? random.below(40) : random.below(3);
  const span = { from, to: Math.min(text.length, from + length) };
  switch (random.below(5)) {
    case 0:
      return { span, insert: '' };
    case 1: {
      const source = random.below(text.length + 1);
      return { span: { from, to: from }, insert: text.slice(source, source + random.below(60)) };
    }
    default:
      return { span: random.below(2) === 0 ? { from, to: from } : span, insert: random.pick(PIECES) };
  }
}

/** A text of `count` random pieces. */
export function randomText(random: Random, count: number): string {
  let text = random.below(3) === 0 ? '' : 'X:1\nT:t\nM:4/4\nL:1/8\nK:C\n';
  for (let i = 0; i < count; i++) text += random.pick(PIECES);
  return text;
}
