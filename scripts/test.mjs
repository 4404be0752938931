// The whole test command on a fresh clone: installs, builds, lints, checks types, runs every suite, and ends with one plain line of sums.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { installPackages, installTools } from './support/install.mjs';
import { root, run, step } from './support/steps.mjs';

const cache = join(root, '.cache');
const unitReport = join(cache, 'unit.json');
const workbenchReport = join(cache, 'workbench.json');
const sum = { passed: 0, failed: 0, skipped: 0 };

/** Runs a step that is no suite: a failure counts as one failed. */
async function required(title, work) {
  const good = await step(title, work);
  if (!good) sum.failed++;
  return good;
}

/** Adds a suite's counts; a suite without a report has failed. */
function add(counts) {
  for (const kind of Object.keys(sum)) sum[kind] += counts[kind];
}

const bin = (name) => join(root, 'node_modules', name);
const node = (args) => run(process.execPath, args).then(({ code }) => code === 0);

function unitCounts() {
  if (!existsSync(unitReport)) return { passed: 0, failed: 1, skipped: 0 };
  const report = JSON.parse(readFileSync(unitReport, 'utf8'));
  // A file that could not be loaded has no failed tests of its own.
  const broken = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0).length;
  return { passed: report.numPassedTests, failed: report.numFailedTests + broken, skipped: report.numPendingTests + report.numTodoTests };
}

function workbenchCounts() {
  return existsSync(workbenchReport) ? JSON.parse(readFileSync(workbenchReport, 'utf8')) : { passed: 0, failed: 1, skipped: 0 };
}

function finish() {
  const skipped = sum.skipped > 0 ? `, ${sum.skipped} skipped` : '';
  console.log(`\n${sum.passed} passed, ${sum.failed} failed${skipped}`);
  process.exit(sum.failed > 0 ? 1 : 0);
}

mkdirSync(cache, { recursive: true });
rmSync(unitReport, { force: true });
rmSync(workbenchReport, { force: true });

if (!(await required('install packages', installPackages))) finish();
await step('look for the tools that tests use', () => installTools());
const built = await required('build', () => node([join(root, 'scripts/build.mjs')]));
await required('lint', () => node([bin('@biomejs/biome/bin/biome'), 'check']));
await required('check types', () => node([bin('typescript/bin/tsc'), '-b']));

const unitArgs = ['run', '--reporter=dot', '--reporter=json', `--outputFile.json=${unitReport}`];
const unitGood = await step('unit and outside tests', () => node([bin('vitest/vitest.mjs'), ...unitArgs]));
const unit = unitCounts();
// A crash outside any test must not pass for success.
if (!unitGood && unit.failed === 0) unit.failed = 1;
add(unit);

if (built) {
  const workbenchGood = await step('workbench tests', () => node([join(root, 'tests/workbench/run.mjs'), workbenchReport]));
  const workbench = workbenchCounts();
  if (!workbenchGood && workbench.failed === 0) workbench.failed = 1;
  add(workbench);
} else {
  console.log('\n> workbench tests: skipped, since the build failed');
  sum.skipped++;
}
finish();
