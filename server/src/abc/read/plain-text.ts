// Text as a reader sees it: backslash escapes, HTML names and code points of section 8.2 resolved.

/** Combining marks of the accent escapes; letter and mark are then composed. */
const ACCENTS: Readonly<Record<string, string>> = {
  '`': '\u0300',
  "'": '\u0301',
  '^': '\u0302',
  '~': '\u0303',
  '"': '\u0308',
  ',': '\u0327',
  u: '\u0306',
  v: '\u030c',
  H: '\u030b',
  c: '\u0327',
};

/** Two-letter escapes that are no accents. */
const LIGATURES: Readonly<Record<string, string>> = {
  AE: 'Æ',
  ae: 'æ',
  OE: 'Œ',
  oe: 'œ',
  ss: 'ß',
  DH: 'Ð',
  dh: 'ð',
  TH: 'Þ',
  th: 'þ',
  AA: 'Å',
  aa: 'å',
  '/O': 'Ø',
  '/o': 'ø',
  '/D': 'Đ',
  '/d': 'đ',
};

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  nbsp: '\u00a0',
  copy: '©',
  szlig: 'ß',
  aelig: 'æ',
  AElig: 'Æ',
  oelig: 'œ',
  OElig: 'Œ',
  oslash: 'ø',
  Oslash: 'Ø',
  aring: 'å',
  Aring: 'Å',
  eth: 'ð',
  ETH: 'Ð',
  thorn: 'þ',
  THORN: 'Þ',
  iexcl: '¡',
  iquest: '¿',
  pound: '£',
  deg: '°',
};

const ENTITY_ACCENTS: Readonly<Record<string, string>> = {
  grave: '\u0300',
  acute: '\u0301',
  circ: '\u0302',
  tilde: '\u0303',
  uml: '\u0308',
  cedil: '\u0327',
  caron: '\u030c',
  ring: '\u030a',
};

const ESCAPE =
  /\\(?:u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8})|([%&\\$])|([`'^~",uvHc])([A-Za-z])|(AE|ae|OE|oe|ss|DH|dh|TH|th|AA|aa|\/[OoDd]))|&(?:#(\d{1,7})|([A-Za-z]{1,8}));/g;

/** The text with its escapes resolved; what is no escape stays. */
export function plainText(text: string): string {
  if (!text.includes('\\') && !text.includes('&')) return text;
  return text.replace(ESCAPE, (whole, short, long, sign, accent, letter, pair, decimal, entity) => {
    if (short ?? long) return codePoint(Number.parseInt(short ?? long, 16), whole);
    if (decimal) return codePoint(Number(decimal), whole);
    if (sign) return sign;
    if (accent) return composed(letter, ACCENTS[accent], whole);
    if (pair) return LIGATURES[pair] ?? whole;
    return ENTITIES[entity] ?? composed(entity[0], ENTITY_ACCENTS[entity.slice(1)], whole);
  });
}

function codePoint(code: number, whole: string): string {
  return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
}

/** Letter and mark as one character; where there is none, the escape was none. */
function composed(letter: string, mark: string | undefined, whole: string): string {
  const made = mark === undefined ? whole : (letter + mark).normalize('NFC');
  return made.length === 1 ? made : whole;
}
