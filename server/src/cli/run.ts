// One call of the command line: finds the command, answers help and version, and turns whatever goes wrong into a message and an exit code.
import { nearest } from './arguments.ts';
import type { Command, ExitCode, Io } from './command.ts';

/** Runs `args` (without node and script). Never throws. */
export async function runCommandLine(args: readonly string[], io: Io, commands: readonly Command[], version: string): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined) return said(io.err, overview(commands), 2);
  if (name === '--version' || name === '-v') return said(io.out, `bullfiddle ${version}\n`, 0);
  if (name === '--help' || name === '-h' || name === 'help') return help(rest, io, commands);
  const command = commands.find((c) => c.name === name);
  if (!command) return said(io.err, unknownCommand(name, commands), 2);
  if (asksHelp(rest)) return said(io.out, pageOf(command), 0);
  try {
    return await command.run(rest, io);
  } catch (problem) {
    const text = problem instanceof Error ? (problem.stack ?? problem.message) : String(problem);
    return said(io.err, `bullfiddle ${name}: stopped by a fault of its own. Please report it with this text:\n${text}\n`, 2);
  }
}

/** Says what is wrong with a call and how the command is called; the exit code of a usage error. */
export function usageError(command: Command, message: string, io: Io): ExitCode {
  return said(io.err, `bullfiddle ${command.name}: ${message}\nUsage: ${command.usage.trim()}\n`, 2);
}

const asksHelp = (args: readonly string[]): boolean => {
  const options = args.includes('--') ? args.slice(0, args.indexOf('--')) : args;
  return options.includes('--help') || options.includes('-h');
};

function help(args: readonly string[], io: Io, commands: readonly Command[]): ExitCode {
  const [name] = args;
  if (name === undefined) return said(io.out, overview(commands), 0);
  const command = commands.find((c) => c.name === name);
  return command ? said(io.out, pageOf(command), 0) : said(io.err, unknownCommand(name, commands), 2);
}

function said(say: (text: string) => void, text: string, code: ExitCode): ExitCode {
  say(text);
  return code;
}

function unknownCommand(name: string, commands: readonly Command[]): string {
  if (name.startsWith('-')) return `bullfiddle: unknown option ${name}; the command comes first.\n\n${overview(commands)}`;
  const near = nearest(
    name,
    commands.map((c) => c.name),
  );
  const hint = near === null ? '' : ` Did you mean "${near}"?`;
  return `bullfiddle: no command "${name}".${hint}\n\n${overview(commands)}`;
}

const pageOf = (command: Command): string => `${command.summary}\n\nUsage: ${command.usage.trim()}\n`;

function overview(commands: readonly Command[]): string {
  const width = Math.max(0, ...commands.map((c) => c.name.length));
  return [
    'bullfiddle: upright-bass parts in tune text: staff, tab, fingering, checks, handouts.',
    '',
    'Usage: bullfiddle COMMAND [options] FILE...',
    '',
    ...commands.map((c) => `  ${c.name.padEnd(width)}  ${c.summary}`),
    '',
    'bullfiddle COMMAND --help tells more; bullfiddle --version gives the version.',
    'A folder stands for its .abc files, - for standard input (--stdin-name NAME names it).',
    'Exit codes: 0 fine, 1 findings or differences, 2 wrong usage or unreadable input.',
    '',
  ].join('\n');
}
