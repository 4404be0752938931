// The parts of a field while it is being typed: V: K: Q: M: L: and I:bullfiddle.
import { declarationKeys } from '../arrangement/index.ts';
import { contextAt } from './completion/context.ts';
import type { Feature } from './feature.ts';

export interface Signature {
  readonly label: string;
  readonly explanation: string;
  readonly parts: readonly { readonly label: string; readonly explanation: string }[];
  /** Index of the part at the caret. */
  readonly active: number;
}

interface Shape {
  readonly letter: string;
  readonly explanation: string;
  readonly parts: readonly { readonly label: string; readonly explanation: string; readonly begins: RegExp }[];
}

const shapes: readonly Shape[] = [
  {
    letter: 'K',
    explanation: 'Key and clef; ends the header.',
    parts: [
      { label: 'tonic', explanation: 'A to G, with # or b.', begins: /^/ },
      { label: 'mode', explanation: 'major, minor, dor, mix, phr, lyd, loc, exp.', begins: /^\s*[A-G][#b]?\s*[a-zA-Z]/ },
      { label: 'accidentals', explanation: 'Further sharps and flats: ^f _b =c.', begins: /\s[\^_=][\^_a-gA-G]*$/ },
      {
        label: 'clef=bass',
        explanation: 'bass, bass-8, tenor, treble, alto.',
        begins: /\s(?:clef=\S*|bass\S*|treble\S*|tenor\S*|alto\S*)$/,
      },
      {
        label: 'octave= transpose=',
        explanation: 'octave= moves the notes, transpose= only the sound.',
        begins: /(?:octave|transpose)=\S*$/,
      },
    ],
  },
  {
    letter: 'V',
    explanation: 'Which voice follows.',
    parts: [
      { label: 'id', explanation: 'A name without spaces.', begins: /^/ },
      { label: 'clef=bass', explanation: 'bass, bass-8, tenor, treble, alto.', begins: /\S\s+\S*$/ },
      { label: 'name="Bass"', explanation: 'Printed before the first staff.', begins: /\s(?:name|nm)=(?:"[^"]*"?|\S*)$/ },
      { label: 'snm="B."', explanation: 'Printed before later staves.', begins: /\s(?:snm|subname)=(?:"[^"]*"?|\S*)$/ },
      {
        label: 'octave= transpose=',
        explanation: 'octave= moves the notes, transpose= only the sound.',
        begins: /(?:octave|transpose)=\S*$/,
      },
    ],
  },
  {
    letter: 'Q',
    explanation: 'Tempo.',
    parts: [
      { label: 'beat', explanation: 'The note that is counted: 1/2 for reels, 3/8 for jigs, 1/4 for waltzes.', begins: /^/ },
      { label: '=beats a minute', explanation: 'How many of them a minute.', begins: /=\d*$/ },
      { label: '"words"', explanation: 'Words before or after, in quotes.', begins: /"[^"]*"?$/ },
    ],
  },
  {
    letter: 'M',
    explanation: 'Meter.',
    parts: [
      { label: 'beats', explanation: 'How many, or C, C|, none.', begins: /^/ },
      { label: '/unit', explanation: 'Of which note.', begins: /\/\d*$/ },
    ],
  },
  {
    letter: 'L',
    explanation: 'Unit note length.',
    parts: [{ label: '1/8', explanation: 'The length of a letter with no number after it.', begins: /^/ }],
  },
];

/** The question is the caret. */
export const signature: Feature<'text', number, Signature | null> = {
  needs: 'text',
  answer(view, at) {
    const context = contextAt(view, at);
    if (context.kind === 'instruction') return declarationSignature(context.before);
    const shape = context.kind === 'field' ? shapes.find((one) => one.letter === context.letter) : undefined;
    if (shape === undefined || context.kind !== 'field') return null;
    const active = shape.parts.findLastIndex((part) => part.begins.test(context.before));
    const parts = shape.parts.map(({ label, explanation }) => ({ label, explanation }));
    return { label: `${shape.letter}:${labelOf(parts)}`, explanation: shape.explanation, parts, active: Math.max(0, active) };
  },
};

const labelOf = (parts: readonly { readonly label: string }[]): string =>
  parts.map(({ label }, i) => (i === 0 || /^[=/]/.test(label) ? label : ` ${label}`)).join('');

/** The keys of I:bullfiddle; the one at the caret is active. */
function declarationSignature(before: string): Signature | null {
  if (!/^bullfiddle\s/.test(before)) return null;
  const key = /([\w-]+)(?:=\S*)?$/.exec(before)?.[1] ?? '';
  const parts = declarationKeys.map(({ key: name, meaning, values }) => ({
    label: `${name}=`,
    explanation: values.length === 0 ? meaning : `${meaning} Values: ${values.join(', ')}.`,
  }));
  const active = declarationKeys.findIndex((one) => one.key.startsWith(key));
  return { label: `I:bullfiddle ${labelOf(parts)}`, explanation: 'What the bass part is.', parts, active: Math.max(0, active) };
}
