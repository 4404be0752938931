// Running checks over a stage: no more than it holds, severities as set, silenced codes left out, in the order of the text.
import type { Book, TuneTree } from '../abc/tree/tree.ts';
import { headerProblems, keepingSymbolPlaces } from '../arrangement/index.ts';
import type { FileConfig } from '../arrangement/types.ts';
import { shifted } from '../text/span.ts';
import type { AnyCheck, Finding, Fix, Need, StageOf } from './check.ts';
import { type Allowance, allowances, isAllowed } from './shared/allow.ts';
import { finding } from './shared/finding.ts';
import { withoutFollowers } from './shared/followers.ts';

const order: readonly Need[] = ['tree', 'score', 'part', 'plan'];

/**
 * The findings of a tune by those of the checks that need `need` or less; `stage` is that tune's stage. Spans are relative to the tune.
 * Severities come from the stage's settings (from `part` on); a code set to `off` or allowed by the tune is left out.
 */
export function runChecks<N extends Need>(checks: readonly AnyCheck[], stage: StageOf[N], need: N): readonly Finding[] {
  const reached = order.indexOf(need);
  const config = configOf(stage);
  const allowed = 'score' in stage ? allowances(stage.score) : [];
  const found = checks
    .filter((check) => order.indexOf(check.needs) <= reached)
    .flatMap((check) => (check.find as (s: StageOf[N]) => readonly Finding[])(stage));
  return withoutFollowers(found, stage.text)
    .flatMap((one) => judged(one, config, allowed))
    .map((one) => settled(one, stage.tree))
    .sort((a, b) => a.from - b.from || a.to - b.to);
}

/** Fixes that take marks out of a symbol line leave the marks after them where they are; fixes of one title are told apart. */
const settled = (found: Finding, tree: TuneTree): Finding =>
  found.fixes.length === 0
    ? found
    : { ...found, fixes: distinct(found.fixes).map(({ title, edits }) => ({ title, edits: keepingSymbolPlaces(tree, edits) })) };

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** Fixes with titles of their own: `Remove !1! (the second)` of those that do the same at several places, counted along the text. */
function distinct(fixes: readonly Fix[]): readonly Fix[] {
  const placeOf = (fix: Fix): number => fix.edits[0]?.span.from ?? 0;
  return fixes.map((fix) => {
    const alike = fixes.filter(({ title }) => title === fix.title).toSorted((a, b) => placeOf(a) - placeOf(b));
    const at = alike.indexOf(fix);
    return alike.length === 1 ? fix : { ...fix, title: `${fix.title} (the ${ordinals[at] ?? `${at + 1}th`})` };
  });
}

const configOf = (stage: StageOf[Need]): FileConfig | null => ('config' in stage ? stage.config : null);

function judged(found: Finding, config: FileConfig | null, allowed: readonly Allowance[]): readonly Finding[] {
  const severity = levelOf(found.code, config) ?? found.severity;
  return severity === 'off' || isAllowed(found, allowed) ? [] : [{ ...found, severity }];
}

/** A severity set for the code itself, else for its family (`pluck` for `pluck.too-fast`). */
function levelOf(code: string, config: FileConfig | null) {
  return config?.severities.get(code) ?? config?.severities.get(code.split('.')[0]!);
}

/** Errors of the text before the first tune (file header), relative to the file's start. */
export function headerFindings(book: Book, config: FileConfig | null = null): readonly Finding[] {
  const errors = book.header.lines.flatMap(({ at, line }) =>
    line.errors.map((error) => finding(error.code, error.severity, shifted(error.span, at), error.message)),
  );
  const declared = headerProblems(book.header).map((problem) =>
    finding(problem.code, 'warning', problem, problem.message, { fixes: problem.fix === null ? [] : [problem.fix] }),
  );
  return [...errors, ...declared].flatMap((found) => judged(found, config, []));
}
