// How music text is to be read from here on: strictness, signs, macros. What is known of this before a line is all that the line's reading depends on.

export type Strictness = 'strict' | 'loose';

/** What a one-letter sign stands for. */
export type SymbolMeaning = { readonly kind: 'decoration'; readonly name: string } | { readonly kind: 'quoted'; readonly quoted: string };

/** One `m:` definition. */
export interface Macro {
  readonly call: string;
  readonly body: string;
  /** Where in `call` the letter `n` stands for any note; -1 in a static macro. */
  readonly noteAt: number;
}

export interface Dialect {
  readonly strictness: Strictness;
  /** The sign around named decorations; null while both `!` and the old `+` may be met. */
  readonly decorationSign: '!' | '+' | null;
  /** Characters that break staff lines (`$`, `!`), together in one string. */
  readonly lineBreaks: string;
  readonly symbols: ReadonlyMap<string, SymbolMeaning>;
  readonly macros: readonly Macro[];
}

const named = (name: string): SymbolMeaning => ({ kind: 'decoration', name });

/** The meanings that the standard gives (4.14) where `U:` says nothing else. */
const STANDARD_SYMBOLS: ReadonlyMap<string, SymbolMeaning> = new Map([
  ['~', named('roll')],
  ['H', named('fermata')],
  ['L', named('accent')],
  ['M', named('lowermordent')],
  ['O', named('coda')],
  ['P', named('uppermordent')],
  ['S', named('segno')],
  ['T', named('trill')],
  ['u', named('upbow')],
  ['v', named('downbow')],
]);

export const STANDARD_DIALECT: Dialect = {
  strictness: 'loose',
  decorationSign: null,
  lineBreaks: '$',
  symbols: STANDARD_SYMBOLS,
  macros: [],
};

/** More definitions than this are not kept: each is tried at many places of the text. */
export const MOST_MACROS = 100;

/** Whether two dialects read every text alike. */
export function sameDialect(a: Dialect, b: Dialect): boolean {
  if (a === b) return true;
  if (a.strictness !== b.strictness || a.decorationSign !== b.decorationSign || a.lineBreaks !== b.lineBreaks) return false;
  if (a.symbols.size !== b.symbols.size || a.macros.length !== b.macros.length) return false;
  for (const [sign, meaning] of a.symbols) if (!sameMeaning(meaning, b.symbols.get(sign))) return false;
  return a.macros.every((macro, i) => macro.call === b.macros[i]?.call && macro.body === b.macros[i]?.body);
}

function sameMeaning(a: SymbolMeaning, b: SymbolMeaning | undefined): boolean {
  if (a.kind === 'decoration') return b?.kind === 'decoration' && a.name === b.name;
  return b?.kind === 'quoted' && a.quoted === b.quoted;
}

/** The dialect after `U:sign = meaning`; `!nil!` and `!none!` take the sign's meaning away. */
export function withSymbol(dialect: Dialect, sign: string, meaning: string): Dialect {
  const symbols = new Map(dialect.symbols);
  const marked = /^[!+](.*)[!+]$/.exec(meaning)?.[1] ?? null;
  const quoted = /^"(.*)"$/.exec(meaning)?.[1] ?? null;
  if (quoted !== null) symbols.set(sign, { kind: 'quoted', quoted });
  else if (marked === 'nil' || marked === 'none' || meaning === '') symbols.delete(sign);
  else symbols.set(sign, named(marked ?? meaning));
  return { ...dialect, symbols };
}

/** The dialect after `m:call = body`; the newest definition of a call stands. */
export function withMacro(dialect: Dialect, call: string, body: string): Dialect {
  const others = dialect.macros.filter((macro) => macro.call !== call);
  if (others.length >= MOST_MACROS) return dialect;
  return { ...dialect, macros: [{ call, body, noteAt: call.indexOf('n') }, ...others] };
}

/** The dialect after an `I:` field or `%%` directive of this name. */
export function withInstruction(dialect: Dialect, name: string, rest: string): Dialect {
  switch (name) {
    case 'decoration':
      return rest === '!' || rest === '+' ? { ...dialect, decorationSign: rest } : dialect;
    case 'linebreak':
      return { ...dialect, lineBreaks: lineBreaksOf(rest) };
    case 'abc-version':
      return { ...dialect, strictness: strictnessOf(rest) };
    default:
      return dialect;
  }
}

function lineBreaksOf(rest: string): string {
  const signs = rest.split(/\s+/);
  return (signs.includes('$') ? '$' : '') + (signs.includes('!') ? '!' : '');
}

/** Version 2.1 and later are read strictly (2.1, 12); no version, or an older one, loosely. */
export function strictnessOf(version: string | null): Strictness {
  const match = /^(\d+)\.(\d+)/.exec(version ?? '');
  if (!match) return 'loose';
  const [major, minor] = [Number(match[1]), Number(match[2])];
  return major > 2 || (major === 2 && minor >= 1) ? 'strict' : 'loose';
}
