// Classes of characters, by char code, for the scanner.

export const TAB = 9;
export const LF = 10;
export const CR = 13;
export const SPACE = 32;
export const BANG = 33;
export const QUOTE = 34;
export const DOLLAR = 36;
export const PERCENT = 37;
export const AMPERSAND = 38;
export const APOSTROPHE = 39;
export const OPEN_PAREN = 40;
export const CLOSE_PAREN = 41;
export const STAR = 42;
export const PLUS = 43;
export const COMMA = 44;
export const HYPHEN = 45;
export const DOT = 46;
export const SLASH = 47;
export const COLON = 58;
export const LESS = 60;
export const EQUALS = 61;
export const GREATER = 62;
export const OPEN_BRACKET = 91;
export const BACKSLASH = 92;
export const CLOSE_BRACKET = 93;
export const CARET = 94;
export const UNDERSCORE = 95;
export const BACK_QUOTE = 96;
export const OPEN_BRACE = 123;
export const BAR = 124;
export const CLOSE_BRACE = 125;

export const isDigit = (code: number): boolean => code >= 48 && code <= 57;

export const isSpace = (code: number): boolean => code === SPACE || code === TAB || code === 0xa0;

/** A-G and a-g. */
export const isNoteLetter = (code: number): boolean => (code >= 65 && code <= 71) || (code >= 97 && code <= 103);

export const isLetter = (code: number): boolean => (code >= 65 && code <= 90) || (code >= 97 && code <= 122);

/** H-W, h-w and `~`: the letters that stand for decorations, by default or by `U:`. */
export const isSymbolLetter = (code: number): boolean => (code >= 72 && code <= 87) || (code >= 104 && code <= 119) || code === 126;

/** First place from `at` on that holds no space or tab. */
export function skipSpaces(text: string, at: number, end: number): number {
  let here = at;
  while (here < end && isSpace(text.charCodeAt(here))) here++;
  return here;
}
