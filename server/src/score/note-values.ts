// The names of note values.

const names: Readonly<Record<string, string>> = {
  '1': 'whole note',
  '1/2': 'half note',
  '1/4': 'quarter note',
  '1/8': 'eighth note',
  '1/16': 'sixteenth note',
  '3/2': 'dotted whole note',
  '3/4': 'dotted half note',
  '3/8': 'dotted quarter note',
  '3/16': 'dotted eighth note',
};

/** The name of a length in whole notes, written as a fraction in lowest terms; with the fraction itself where there is no name. */
export const noteValueName = (length: string): string => names[length] ?? `${length} note`;
