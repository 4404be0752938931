// A book in a git repository, changed since its last commit: both states side by side.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, emptyFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

const tune = 'X:1\nT:Kettle Reel\nM:4/4\nL:1/4\nQ:1/4=90\nK:D clef=bass\nP:A\nD,F,A,F,|G,E,D,2|\nP:B\nF,A,B,A,|G,E,D,2|]\n';

export async function lastCommit(browser, test) {
  const folder = emptyFolder('last-commit');
  const file = join(folder, 'kettle.abc');
  const git = (...args) =>
    execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.org', '-c', 'commit.gpgsign=false', ...args], { cwd: folder });
  writeFileSync(file, tune);
  git('init', '-q');
  git('add', '.');
  git('commit', '-qm', 'A reel');
  const bed = await bedOfCheckout(browser, 'last-commit', folder, { settings: { 'git.enabled': true } });
  const { work, page } = bed;
  try {
    await test('says that nothing has changed since the last commit', async () => {
      await work.loaded();
      await work.openFile('kettle.abc');
      await until('the word that nothing changed', async () => {
        await work.command('Bullfiddle: Compare with Last Commit');
        return until(
          'a message',
          () => page.locator('.notification-toast', { hasText: 'Nothing a player would notice' }).first().isVisible(),
          5_000,
        );
      });
    });

    await test('shows what was changed and not yet saved beside the commit, bar by bar', async () => {
      await work.goTo(readFileSync(file, 'utf8').split('\n').indexOf('F,A,B,A,|G,E,D,2|]') + 1, 1);
      await page.keyboard.press('Shift+End');
      await page.keyboard.press('Delete');
      await page.keyboard.insertText('F,A,B,D|G,E,D,2|]');
      await work.command('Bullfiddle: Compare with Last Commit');
      const row = work.sheet().locator('tr.changed', { hasText: 'notes F# A B D, were F# A B A' });
      await row.waitFor({ state: 'visible', timeout: 30_000 });
      await until('both pictures of the bar', async () => (await row.locator('svg[role=img]').count()) === 2);
      await until('the notes marked', async () => (await row.locator('.mark').count()) >= 2);
      await picture(page, 'last-commit');
    });
  } finally {
    await bed.close();
  }
}
