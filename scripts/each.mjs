// Bundles and runs TypeScript programs one after another: `node scripts/each.mjs FOLDER ENDING [part of a name] [-- arguments]`.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import esbuild from 'esbuild';
import { root, run } from './support/steps.mjs';

const [folder, ending, ...rest] = process.argv.slice(2);
const dash = rest.indexOf('--');
const wanted = dash < 0 ? rest : rest.slice(0, dash);
const args = dash < 0 ? [] : rest.slice(dash + 1);

const here = join(root, folder);
const names = existsSync(here) ? readdirSync(here, { recursive: true }).map(String) : [];
const files = names.filter((name) => name.endsWith(ending) && wanted.every((part) => name.includes(part))).sort();
if (files.length === 0)
  console.error(`No program in ${folder} ends in ${ending}${wanted.length > 0 ? ` and has ${wanted.join(', ')} in its name` : ''}.`);

/** Each source keeps its own folder as `import.meta.dirname`, although all are bundled into one file elsewhere. */
const ownFolder = {
  name: 'own-folder',
  setup(build) {
    build.onLoad({ filter: /\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8');
      return { contents: text.replaceAll('import.meta.dirname', JSON.stringify(dirname(path))), loader: 'ts' };
    });
  },
};

let failed = files.length === 0 ? 1 : 0;
for (const file of files) {
  const outfile = join(root, '.cache/run', folder, file.replace(/\.ts$/, '.mjs'));
  console.log(`\n> ${relative(root, join(here, file))}`);
  await esbuild.build({
    entryPoints: [join(here, file)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    logLevel: 'warning',
    plugins: [ownFolder],
  });
  if ((await run(process.execPath, [outfile, ...args])).code !== 0) failed++;
}
process.exitCode = failed > 0 ? 1 : 0;
