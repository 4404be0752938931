// Tune text copied from a page: its quotes, spaces and line ends made plain.

/** Signs that pages put for plain ones. */
const plain: Readonly<Record<string, string>> = {
  '\u2018': "'",
  '\u2019': "'",
  '\u201C': '"',
  '\u201D': '"',
  '\u201E': '"',
  '\u2032': "'",
  '\u2033': '"',
  '\u00A0': ' ',
  '\u2002': ' ',
  '\u2003': ' ',
  '\u2009': ' ',
  '\u2013': '-',
  '\u2212': '-',
  '\u266F': '#',
  '\u200B': '',
  '\u200C': '',
  '\u200D': '',
  '\u2060': '',
  '\uFEFF': '',
};

const found = new RegExp(`[${Object.keys(plain).join('')}]`, 'g');

/** Lines that hold words for people are only freed of invisible signs; in the rest quotes, dashes and sharps become those of the notation. */
export function cleanPasted(text: string, lineEnd: '\n' | '\r\n'): string {
  return text
    .split(/\r\n|\n|\r|\u2028|\u2029/)
    .map((line) =>
      /^(?:[TCAOSRBDFGHNZWw]:|%)/.test(line)
        ? line.replace(found, (sign) => (/\s|^$/.test(plain[sign]!) ? plain[sign]! : sign))
        : line.replace(found, (sign) => plain[sign]!),
    )
    .join(lineEnd);
}

/** A line of notes, rests and signs with two bar lines, words in quotes left out. */
const musicLine = /^[A-Ga-gzx,'0-9/ :[\](){}!^_=<>~.-]*\|[A-Ga-gzx,'0-9/ :[\](){}!^_=<>~.-]*\|/m;

/** Whether pasted text looks like a tune: it has a number or key field, or a line of music. */
export const looksLikeTune = (text: string): boolean => /^(?:X|K):/m.test(text) || musicLine.test(text.replace(/"[^"\n]*"/g, ''));
