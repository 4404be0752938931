// Chord symbols as MusicXML harmony: root, kind, bass. What is no chord's name is left to the text.
import { element, textElement } from '../xml.ts';

/** Kinds of the standard's list that these tunes use, by what follows the root. */
const kinds: Readonly<Record<string, string>> = {
  '': 'major',
  maj: 'major',
  m: 'minor',
  min: 'minor',
  '-': 'minor',
  '7': 'dominant',
  m7: 'minor-seventh',
  min7: 'minor-seventh',
  maj7: 'major-seventh',
  M7: 'major-seventh',
  '6': 'major-sixth',
  m6: 'minor-sixth',
  '9': 'dominant-ninth',
  dim: 'diminished',
  dim7: 'diminished-seventh',
  aug: 'augmented',
  '+': 'augmented',
  sus4: 'suspended-fourth',
  sus: 'suspended-fourth',
  sus2: 'suspended-second',
  '5': 'power',
};

const alterOf = (sign: string | undefined): number => (sign === '#' || sign === '♯' ? 1 : sign === 'b' || sign === '♭' ? -1 : 0);

/** The harmony element of a chord symbol; empty for text that names no chord. */
export function harmonyElement(symbol: string): string {
  const found = /^\s*([A-G])([#b♯♭]?)([^/\s]*)(?:\/([A-G])([#b♯♭]?))?\s*$/.exec(symbol);
  if (!found) return '';
  const [, root, sign, rest = '', bass, bassSign] = found;
  const alter = (name: string, value: number): string => (value === 0 ? '' : textElement(name, value));
  return element(
    'harmony',
    {},
    element('root', {}, textElement('root-step', root!), alter('root-alter', alterOf(sign))),
    element('kind', { text: rest }, kinds[rest] ?? 'other'),
    bass === undefined ? null : element('bass', {}, textElement('bass-step', bass), alter('bass-alter', alterOf(bassSign))),
  );
}
