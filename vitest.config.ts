// Unit and outside suites; the workbench suite is mocha's, in an extension host.
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: { include: ['tests/unit/**/*.test.ts', 'tests/outside/**/*.test.ts'], testTimeout: 60_000, pool: 'threads' },
});
