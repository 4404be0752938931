// One tune file checked: what is printed of it and what is said, the same on whichever thread.
import { makeTables } from '../fingering/index.ts';
import { tableBytes } from './book.ts';
import type { CheckedFile, CheckJob, Io } from './command.ts';
import { configsOf, settingsOrWord } from './config.ts';
import { findingsGithub } from './output/findings-github.ts';
import { findingsText } from './output/findings-text.ts';
import { type Reported, reportOf } from './output/report.ts';
import { readSource, type Source } from './sources.ts';

/** Checks one file after another, settings and transition tables kept between them. Never rejects. */
export function fileChecker(job: CheckJob, io: Io): (path: string) => Promise<CheckedFile> {
  let said: string[] = [];
  const heard = io.sayingTo((text) => void said.push(text));
  const configs = configsOf(heard);
  const tables = makeTables(tableBytes);
  const read = async (path: string): Promise<CheckedFile> => {
    const source = await readSource(path, heard, job.stdinName);
    if (source === null) return unjudged(said);
    const config = await settingsOrWord(source, job.player, configs, heard);
    if (config === null) return unjudged(said);
    const findings = reportOf(source, config, tables);
    return { judged: true, findings, printed: printed(findings, source, job.format), said };
  };
  return (path) => {
    said = [];
    return read(path).catch((problem: unknown) => {
      const lost = lostFile(path, problem instanceof Error ? (problem.stack ?? problem.message) : String(problem));
      return { ...lost, said: [...said, ...lost.said] };
    });
  };
}

const unjudged = (said: readonly string[]): CheckedFile => ({ judged: false, findings: [], printed: '', said });

/** What is told of a file whose check broke down. */
export const lostFile = (path: string, reason: string): CheckedFile =>
  unjudged([`${path}: its check stopped by a fault of its own; the other files go on. Please report it with this text:\n${reason}\n`]);

function printed(findings: readonly Reported[], { text }: Source, format: CheckJob['format']): string {
  switch (format) {
    case 'text':
      return findingsText(findings, text);
    case 'json':
      return findings.map(jsonLine).join('');
    case 'github':
      return findingsGithub(findings);
    case 'sarif':
      return '';
  }
}

/** The contract of the public JSON has line and column of the start alone. */
function jsonLine({ endLine: _line, endColumn: _column, ...rest }: Reported): string {
  return `${JSON.stringify(rest)}\n`;
}
