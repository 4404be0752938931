// Screenshots, to be looked at: they go to an ignored folder, named by what they show.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../../../scripts/support/steps.mjs';

const folder = join(root, '.cache/screenshots');

export async function picture(page, name) {
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) }).catch(() => {});
}
