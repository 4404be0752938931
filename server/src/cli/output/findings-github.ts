// Findings as workflow commands: continuous integration shows them at their lines.
import type { Reported } from './report.ts';

const levels: Readonly<Record<Reported['severity'], string>> = { error: 'error', warning: 'warning', info: 'notice' };

/** One line a finding. */
export const findingsGithub = (findings: readonly Reported[]): string => findings.map(lineOf).join('');

function lineOf({ severity, file, line, column, endLine, endColumn, code, message }: Reported): string {
  const place = `file=${property(file)},line=${line},endLine=${endLine},col=${column},endColumn=${endColumn},title=${property(code)}`;
  return `::${levels[severity]} ${place}::${escaped(message)}\n`;
}

/** Percent signs and line ends would end the command early; in a property colons and commas too. */
const escaped = (text: string): string => text.replace(/%/g, '%25').replace(/\r/g, '%0D').replace(/\n/g, '%0A');
const property = (text: string): string => escaped(text).replace(/:/g, '%3A').replace(/,/g, '%2C');
