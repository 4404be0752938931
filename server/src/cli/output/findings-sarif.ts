// Findings as SARIF 2.1.0 (OASIS standard, Static Analysis Results Interchange Format), for code hosts and editors.
import { checks } from '../../checks/index.ts';
import type { Reported } from './report.ts';

const levels: Readonly<Record<Reported['severity'], string>> = { error: 'error', warning: 'warning', info: 'note' };

/** One run with every finding; rules are the codes found, so that each result can point to its own. */
export function findingsSarif(findings: readonly Reported[], version: string): string {
  // A family (`text.*`) is no rule of its own: its codes come in with what was found.
  const known = checks.flatMap((check) => check.codes).filter((code) => !code.endsWith('*'));
  const codes = [...new Set([...known, ...findings.map((found) => found.code)])].sort();
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'bullfiddle', version, rules: codes.map((id) => ({ id })) } },
        columnKind: 'utf16CodeUnits',
        results: findings.map((found) => resultOf(found, codes.indexOf(found.code))),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

/** A file name as a relative reference (RFC 3986): each part escaped, since `#`, `?` and `%` would end or change it. */
const uriOf = (file: string): string => file.replaceAll('\\', '/').split('/').map(encodeURIComponent).join('/');

function resultOf(found: Reported, ruleIndex: number): object {
  const artifactLocation = { uri: uriOf(found.file) };
  const { line: startLine, column: startColumn, endLine, endColumn, from, to } = found;
  const region = { startLine, startColumn, endLine, endColumn, charOffset: from, charLength: to - from };
  return {
    ruleId: found.code,
    ruleIndex,
    level: levels[found.severity],
    message: { text: found.message },
    locations: [{ physicalLocation: { artifactLocation, region } }],
    ...(found.fix === undefined ? {} : { fixes: [fixOf(found.fix, artifactLocation)] }),
  };
}

function fixOf({ title, edits }: NonNullable<Reported['fix']>, artifactLocation: object): object {
  const replacements = edits.map(({ from, to, insert }) => ({
    deletedRegion: { charOffset: from, charLength: to - from },
    insertedContent: { text: insert },
  }));
  return { description: { text: title }, artifactChanges: [{ artifactLocation, replacements }] };
}
