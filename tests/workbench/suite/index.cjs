// The suite inside an extension host: what the extension gives by the editor's own interface. Mocha runs it, in the bed and in a desktop editor.
const { default: Mocha } = require('mocha');
const { join } = require('node:path');

/** Resolves when all tests have passed; the editor then exits with 0, else with 1. */
exports.run = async () => {
  const mocha = new Mocha({ ui: 'bdd', color: false, timeout: 120_000, reporter: 'spec' });
  for (const name of ['language.cjs', 'features.cjs', 'sheet.cjs']) mocha.addFile(join(__dirname, name));
  const counts = await new Promise((done) => {
    const runner = mocha.run((failures) => done({ passed: runner.stats.passes, failed: failures, skipped: runner.stats.pending }));
  });
  // The driver reads this line; the editor hands on no more than an exit code.
  console.log(`SUITE ${JSON.stringify(counts)}`);
  if (counts.failed > 0) throw new Error(`${counts.failed} tests failed.`);
};
