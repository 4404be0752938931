// Errors of the text: each has a stable code, says what to do, and is on the page about them.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { textErrorCodes } from '../../../server/src/abc/index.ts';
import { textError } from '../../../server/src/abc/read/errors.ts';

const page = readFileSync(join(import.meta.dirname, '../../../server/docs/checks/text.md'), 'utf8');

describe('errors of the text', () => {
  it.each(textErrorCodes)('%s is on its page, with both severities', (code) => {
    const [strict, loose] = (['strict', 'loose'] as const).map((strictness) => textError(code, strictness, 0, 0).severity);
    expect(page).toContain(`| \`${code}\` | ${strict} | ${loose} |`);
  });

  it('are never graver in loose reading', () => {
    const rank = { info: 0, warning: 1, error: 2 };
    for (const code of textErrorCodes) {
      expect(rank[textError(code, 'loose', 0, 0).severity]).toBeLessThanOrEqual(rank[textError(code, 'strict', 0, 0).severity]);
    }
  });

  it('tell the player what to do', () => {
    // The value of a field and a file that fails bring their own words.
    const own = ['text.field-value', 'text.include-failed'];
    for (const code of textErrorCodes) {
      if (!own.includes(code))
        expect(textError(code, 'strict', 0, 0, 'x').message).toMatch(/\b(Write|Take|Check|Begin|Move|Define|Join|See|Mark)\b/);
    }
  });
});
