// Reading the arguments of a command: declared options in, typed values or a message for the player out.

/** What an option takes. `text` names what is wanted (`DIR`, `NAME`); a number is taken within its bounds. */
export type Option =
  | { readonly kind: 'flag' }
  | { readonly kind: 'text'; readonly what: string }
  | { readonly kind: 'number'; readonly least: number; readonly most: number; readonly step?: number }
  | { readonly kind: 'choice'; readonly choices: readonly string[] }
  /** Several choices joined by commas. */
  | { readonly kind: 'choices'; readonly choices: readonly string[] };

type ValueOf<O extends Option> = O extends { kind: 'flag' }
  ? boolean
  : O extends { kind: 'text' }
    ? string | null
    : O extends { kind: 'number' }
      ? number | null
      : O extends { kind: 'choice'; choices: readonly (infer C)[] }
        ? C | null
        : O extends { kind: 'choices'; choices: readonly (infer C)[] }
          ? readonly C[] | null
          : never;

export type Values<Os extends Record<string, Option>> = { readonly [Name in keyof Os]: ValueOf<Os[Name]> };

export type Arguments<Os extends Record<string, Option>> =
  | { readonly kind: 'read'; readonly values: Values<Os>; readonly files: readonly string[] }
  | { readonly kind: 'wrong'; readonly message: string };

/** Options of every command that reads tune files. */
export const inputOptions = { 'stdin-name': { kind: 'text', what: 'NAME' } } as const satisfies Record<string, Option>;

interface Refusal {
  readonly message: string;
}
type Value = boolean | string | number | readonly string[];

/**
 * Reads `--name value`, `--name=value`, flags and file names; `--` ends the options, `-` is a file name (standard input).
 * An option not given is null, a flag false. Says in one sentence what is wrong with the first bad argument.
 */
export function readArguments<const Os extends Record<string, Option>>(args: readonly string[], options: Os): Arguments<Os> {
  const values: Record<string, Value | null> = {};
  for (const [name, option] of Object.entries(options)) values[name] = option.kind === 'flag' ? false : null;
  const files: string[] = [];
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    if (arg === '--') {
      files.push(...args.slice(i + 1));
      break;
    }
    if (!arg.startsWith('-') || arg === '-') {
      files.push(arg);
      continue;
    }
    const { name, inline } = splitOption(arg);
    const option = Object.hasOwn(options, name) ? options[name] : undefined;
    if (!option) return { kind: 'wrong', message: unknownOption(arg, Object.keys(options)) };
    const given = inline ?? (option.kind === 'flag' ? null : (args[++i] ?? null));
    const value = takeValue(name, option, given);
    if (isRefusal(value)) return { kind: 'wrong', message: value.message };
    values[name] = value;
  }
  return { kind: 'read', values: values as Values<Os>, files };
}

function splitOption(arg: string): { name: string; inline: string | null } {
  const equals = arg.indexOf('=');
  const head = equals < 0 ? arg : arg.slice(0, equals);
  return { name: head.startsWith('--') ? head.slice(2) : head, inline: equals < 0 ? null : arg.slice(equals + 1) };
}

const isRefusal = (value: Value | Refusal): value is Refusal => typeof value === 'object' && 'message' in value;

function takeValue(name: string, option: Option, given: string | null): Value | Refusal {
  if (option.kind === 'flag') return given === null ? true : { message: `--${name} takes no value; leave out "=${given}".` };
  if (given === null) return { message: `--${name} needs a value: ${wanted(option)}.` };
  switch (option.kind) {
    case 'text':
      return given === '' ? { message: `--${name} needs a value: ${wanted(option)}.` } : given;
    case 'number':
      return numberOf(name, option, given);
    case 'choice':
      return option.choices.includes(given) ? given : { message: `--${name} does not know "${given}"; it takes ${wanted(option)}.` };
    case 'choices':
      return choicesOf(name, option, given);
  }
}

function numberOf(name: string, option: Extract<Option, { kind: 'number' }>, given: string): Value | Refusal {
  const value = given.trim() === '' ? Number.NaN : Number(given);
  const steps = value / (option.step ?? 1);
  const ok = Number.isFinite(value) && value >= option.least && value <= option.most && Math.abs(steps - Math.round(steps)) < 1e-9;
  return ok ? value : { message: `--${name} cannot be "${given}"; it takes ${wanted(option)}.` };
}

function choicesOf(name: string, option: Extract<Option, { kind: 'choices' }>, given: string): Value | Refusal {
  const parts = given.split(',').map((part) => part.trim());
  const bad = parts.find((part) => !option.choices.includes(part));
  if (bad !== undefined) return { message: `--${name} does not know "${bad}"; it takes ${wanted(option)}.` };
  return [...new Set(parts)];
}

function wanted(option: Exclude<Option, { kind: 'flag' }>): string {
  switch (option.kind) {
    case 'text':
      return option.what;
    case 'number':
      return `a ${(option.step ?? 1) === 1 ? 'whole number' : 'number'} from ${option.least} to ${option.most}`;
    case 'choice':
      return `one of ${option.choices.join(', ')}`;
    case 'choices':
      return `one or more of ${option.choices.join(', ')}, joined by commas`;
  }
}

function unknownOption(arg: string, names: readonly string[]): string {
  const near = nearest(splitOption(arg).name, names);
  const hint = near === null ? (names.length > 0 ? ` Options: ${names.map((n) => `--${n}`).join(', ')}.` : '') : ` Did you mean --${near}?`;
  return `Unknown option ${arg.split('=')[0]}.${hint}`;
}

/** The candidate at most two letters away from `word` (one for short words), or null. */
export function nearest(word: string, candidates: readonly string[]): string | null {
  const most = word.length < 5 ? 1 : 2;
  const ranked = candidates.map((candidate) => ({ candidate, steps: distance(word, candidate) })).sort((a, b) => a.steps - b.steps);
  const best = ranked[0];
  return best && best.steps <= most ? best.candidate : null;
}

/** Edit distance (insert, delete, replace), by rows. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)));
    }
    row = next;
  }
  return row[b.length]!;
}
