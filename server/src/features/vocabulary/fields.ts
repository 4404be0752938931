// Information fields (abc 2.1, section 3) and where they may stand.
import type { Entry } from './entry.ts';

export interface FieldEntry extends Entry {
  /** In a tune's header and a file's header, in the body on a line of its own, in brackets among the notes. */
  readonly where: readonly ('file' | 'tune' | 'body' | 'inline')[];
}

const everywhere = ['file', 'tune', 'body', 'inline'] as const;
const headers = ['file', 'tune'] as const;

export const fieldEntries: readonly FieldEntry[] = [
  { word: 'X', meaning: 'Number of the tune; begins it.', where: ['tune'] },
  { word: 'T', meaning: 'Title; in the body the title of a section.', where: ['tune', 'body'] },
  { word: 'C', meaning: 'Composer.', where: headers },
  { word: 'R', meaning: 'Kind of tune: reel, jig, waltz.', where: everywhere },
  { word: 'M', meaning: 'Meter: 4/4, C|, 6/8, none.', where: everywhere },
  { word: 'L', meaning: 'Unit note length: 1/8, 1/4.', where: everywhere },
  { word: 'Q', meaning: 'Tempo: 1/2=80, or words in quotes.', where: ['tune', 'body', 'inline'] },
  { word: 'K', meaning: 'Key and clef; ends the header.', where: ['tune', 'body', 'inline'] },
  { word: 'V', meaning: 'Voice: which one follows, and its clef and name.', where: ['tune', 'body', 'inline'] },
  { word: 'P', meaning: 'Part: its label in the body, the order of parts in the header.', where: ['tune', 'body', 'inline'] },
  { word: 'I', meaning: 'Instruction: I:bullfiddle says what the bass part is.', where: everywhere },
  { word: 'w', meaning: 'Words under the notes above.', where: ['body'] },
  { word: 's', meaning: 'Symbol line: marks for the notes above.', where: ['body'] },
  { word: 'W', meaning: 'Words after the tune.', where: ['tune', 'body'] },
  { word: 'U', meaning: 'A one-letter sign of your own for a decoration.', where: everywhere },
  { word: 'm', meaning: 'Macro: a short text that stands for a longer one.', where: everywhere },
  { word: 'N', meaning: 'Notes.', where: everywhere },
  { word: 'r', meaning: 'Remark, not printed.', where: everywhere },
  { word: 'S', meaning: 'Source: where the tune was learned.', where: headers },
  { word: 'O', meaning: 'Origin: country or region.', where: headers },
  { word: 'A', meaning: 'Area (old; use O:).', where: headers },
  { word: 'B', meaning: 'Book.', where: headers },
  { word: 'D', meaning: 'Recording.', where: headers },
  { word: 'F', meaning: 'Address of the file.', where: headers },
  { word: 'G', meaning: 'Group.', where: headers },
  { word: 'H', meaning: 'History.', where: headers },
  { word: 'Z', meaning: 'Who wrote the tune down.', where: headers },
];
