// The command line as one file, built from the sources for tests that start it as a process or on threads.
import { join } from 'node:path';
import { build } from 'esbuild';

/** Builds the command to `outfile`, as `scripts/build.mjs` does, but whole and readable. */
export async function buildCommand(outfile: string): Promise<void> {
  await build({
    entryPoints: [join(import.meta.dirname, '../../server/src/cli/main.ts')],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    outfile,
    mainFields: ['module', 'main'],
    define: { 'import.meta.url': '"file:///bullfiddle.js"' },
    external: ['@resvg/resvg-js'],
    logLevel: 'error',
  });
}
