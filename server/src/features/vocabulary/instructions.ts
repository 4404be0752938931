// Instructions (I: and %%) of the standard, with their values.
import type { Entry } from './entry.ts';

export interface InstructionEntry extends Entry {
  readonly values: readonly string[];
}

export const instructionEntries: readonly InstructionEntry[] = [
  { word: 'bullfiddle', meaning: 'What the bass part is: key=value pairs.', values: [] },
  { word: 'linebreak', meaning: 'What ends a line of staff.', values: ['<EOL>', '$', '!', '<none>'] },
  { word: 'decoration', meaning: 'Which sign encloses decorations.', values: ['!', '+'] },
  { word: 'propagate-accidentals', meaning: 'How far an accidental reaches in its bar.', values: ['pitch', 'octave', 'not'] },
  { word: 'writeout-accidentals', meaning: 'Which accidentals are written out.', values: ['none', 'added', 'all'] },
  { word: 'abc-charset', meaning: 'Character set of the file.', values: ['utf-8'] },
  { word: 'abc-version', meaning: 'Version of the standard this tune follows.', values: ['2.1'] },
  { word: 'abc-include', meaning: 'Reads fields from another file of the folder.', values: [] },
  { word: 'abc-creator', meaning: 'The program that wrote the file.', values: [] },
  { word: 'score', meaning: 'How voices are grouped on staves.', values: [] },
  { word: 'MIDI', meaning: 'Playback settings for other programs.', values: [] },
];
