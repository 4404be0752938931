// `bullfiddle check`: what no hand can play, what does not add up, and how to mend it.
import type { Severity } from '../../checks/index.ts';
import { makeTables } from '../../fingering/index.ts';
import { inputOptions, readArguments } from '../arguments.ts';
import { tableBytes } from '../book.ts';
import { checkAll, severities } from '../check-all.ts';
import type { CheckJob, Command, ExitCode, Io } from '../command.ts';
import { configsOf } from '../config.ts';
import { type PlayerRow, playersTable, rowsFor } from '../output/players.ts';
import { usageError } from '../run.ts';
import { readSources } from '../sources.ts';

const formats = ['text', 'json', 'sarif', 'github'] as const;
const options = {
  ...inputOptions,
  format: { kind: 'choice', choices: formats },
  'fail-on': { kind: 'choice', choices: severities },
  for: { kind: 'text', what: 'a player of bullfiddle.json' },
  players: { kind: 'flag' },
} as const;

export const check: Command = {
  name: 'check',
  summary: 'Check tunes: bars that do not add up, passages no hand can play, with what is missing and how to mend it.',
  usage: `bullfiddle check FILE... [--format text|json|sarif|github] [--fail-on error|warning|info] [--for NAME] [--stdin-name NAME]
       bullfiddle check FILE... --players [--format text|json]

  --format           text (default), json (a line a finding), sarif (SARIF 2.1.0), github (annotation lines)
  --fail-on          the least severity that makes the exit code 1; error if not given
  --for NAME         judge for this player of bullfiddle.json
  --players          a table of tunes by the players of bullfiddle.json: playable, comfortable and limit tempo, blocking bars
  --stdin-name NAME  what to call standard input (-)`,
  async run(args, io) {
    const read = readArguments(args, options);
    if (read.kind === 'wrong') return usageError(check, read.message, io);
    if (read.files.length === 0) return usageError(check, 'name a tune file or a folder.', io);
    if (!read.values.players) return checkAll(read.files, jobOf(read.values), read.values['fail-on'] ?? 'error', io);
    const clash = clashWithPlayers(read.values);
    return clash === null ? tabulate(read.files, read.values, io) : usageError(check, clash, io);
  },
};

interface Asked {
  readonly format: (typeof formats)[number] | null;
  readonly 'fail-on': Severity | null;
  readonly for: string | null;
  readonly 'stdin-name': string | null;
}

function jobOf({ format, for: player, 'stdin-name': stdinName }: Asked): CheckJob {
  return { format: format ?? 'text', player, stdinName };
}

function clashWithPlayers({ format, for: player, 'fail-on': least }: Asked): string | null {
  if (format === 'sarif' || format === 'github') return `--players makes a table; it has no form as ${format}.`;
  if (player !== null) return '--players judges for every player; leave --for out.';
  return least === null ? null : '--players makes a table and fails on no finding; leave --fail-on out.';
}

/** A table of every tune for every player that the file's configuration names. */
async function tabulate(files: readonly string[], asked: Asked, io: Io): Promise<ExitCode> {
  const { sources, failed } = await readSources(files, io, asked['stdin-name']);
  const configs = configsOf(io);
  const tables = makeTables(tableBytes);
  const rows: PlayerRow[] = [];
  let refused = failed;
  for (const source of sources) {
    const players = [...(await configs.fileFor(source.path)).players.keys()];
    if (players.length === 0) {
      io.err(`${source.name}: no players to judge for. List them under "players" in bullfiddle.json.\n`);
      refused = true;
    }
    const byPlayer: (readonly PlayerRow[])[] = [];
    for (const player of players) byPlayer.push(rowsFor(source, player, (await configs.settingsFor(source.path, player))!, tables));
    rows.push(...(byPlayer[0] ?? []).flatMap((_, i) => byPlayer.map((ofPlayer) => ofPlayer[i]!)));
  }
  if (asked.format === 'json') io.out(rows.map((row) => `${JSON.stringify(row)}\n`).join(''));
  else if (rows.length > 0) io.out(playersTable(rows));
  return refused ? 2 : 0;
}
