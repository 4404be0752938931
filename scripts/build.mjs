// Builds dist/: one bundle for each face, minified, with the metafile the tests read. `--watch` builds again at every change.
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import esbuild from 'esbuild';
import { root } from './support/steps.mjs';

/** Loaded on demand by `require`: an `import()` of a bundle would first be read whole for the names it exports. */
const node = { platform: 'node', format: 'cjs', target: 'node20', supported: { 'dynamic-import': false } };
const browser = { platform: 'browser', format: 'iife', target: 'chrome122' };

/** Bundles by name. `handout` and `server` are also loaded on demand by others, see `onDemand`. */
const bundles = {
  extension: { entry: 'client/src/extension.ts', ...node, external: ['vscode'] },
  'extension.web': { entry: 'client/src/extension.web.ts', ...browser, format: 'cjs', external: ['vscode'] },
  server: { entry: 'server/src/wire/node.ts', ...node },
  'server.web': { entry: 'server/src/wire/browser.ts', ...browser },
  webview: { entry: 'client/webview/page.ts', ...browser },
  handout: { entry: 'server/src/handout/index.ts', ...node, external: ['@resvg/resvg-js'] },
  cli: { entry: 'server/src/cli/main.ts', ...node, external: ['@resvg/resvg-js'], banner: { js: '#!/usr/bin/env node' } },
};

/** A dynamic import of these files loads the bundle beside instead of a copy inside. */
const loadedOnDemand = [
  { filter: /\/handout\/index\.ts$/, bundle: './handout.js' },
  { filter: /\/wire\/node\.ts$/, bundle: './server.js' },
];
const onDemand = {
  name: 'on-demand',
  setup(build) {
    for (const { filter, bundle } of loadedOnDemand) {
      build.onResolve({ filter }, (args) => (args.kind === 'dynamic-import' ? { path: bundle, external: true } : undefined));
    }
  },
};

const optionsOf = (name, { entry, ...options }) => ({
  ...options,
  entryPoints: [join(root, entry)],
  outfile: join(root, 'dist', `${name}.js`),
  absWorkingDir: root,
  bundle: true,
  minify: true,
  metafile: true,
  legalComments: 'none',
  logLevel: 'warning',
  mainFields: options.platform === 'node' ? ['module', 'main'] : ['browser', 'module', 'main'],
  // The PDF library asks where it lies, to find standard fonts that we never use.
  define: { 'process.env.NODE_ENV': '"production"', 'import.meta.url': '"file:///bullfiddle.js"' },
  plugins: options.platform === 'node' ? [onDemand] : [],
});

const watch = process.argv.includes('--watch');
if (!watch) rmSync(join(root, 'dist'), { recursive: true, force: true });
mkdirSync(join(root, 'dist'), { recursive: true });

const meta = { inputs: {}, outputs: {} };
let failed = 0;
for (const [name, bundle] of Object.entries(bundles)) {
  if (!existsSync(join(root, bundle.entry))) {
    console.error(`${name}: there is no ${bundle.entry}`);
    continue;
  }
  if (watch) {
    await (await esbuild.context(optionsOf(name, bundle))).watch();
    continue;
  }
  try {
    const { metafile } = await esbuild.build(optionsOf(name, bundle));
    Object.assign(meta.inputs, metafile.inputs);
    Object.assign(meta.outputs, metafile.outputs);
    const bytes = Object.values(metafile.outputs).reduce((sum, output) => sum + output.bytes, 0);
    console.log(`dist/${name}.js ${(bytes / 1024).toFixed(0)} kB`);
  } catch {
    failed++; // esbuild has printed why.
  }
}
writeFileSync(join(root, 'dist/meta.json'), JSON.stringify(meta));
process.exitCode = failed > 0 ? 1 : 0;
