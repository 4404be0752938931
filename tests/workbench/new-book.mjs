// From an empty folder to a page for the stand: start a book, paste a melody, arrange low and high, mend a finding, ink, export.
import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, emptyFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

/** As pages give it: curly quotes and a hard space. */
const pasted = `
X:2
T:Kettle on the Hob
C:trad.
R:reel
M:4/4
L:1/8
Q:1/2=70
K:D
|:\u201CD\u201DA2FA D2FA|\u201CD\u201Dd2fd A2FA|\u201CG\u201DB2GB\u00A0d2BG|\u201CA\u201DA2FE E4|
\u201CD\u201DA2FA D2FA|\u201CD\u201Dd2fd A2FA|\u201CG\u201DB2gf \u201CA\u201De2c2|\u201CD\u201Dd4 d4:|
`;

export async function newBook(browser, test) {
  const folder = emptyFolder('new-book');
  const bed = await bedOfCheckout(browser, 'new-book', folder);
  const { work, page } = bed;
  const file = join(folder, 'first-tune.abc');
  const saved = async (what, wanted) => {
    await page.keyboard.press('Control+1');
    return until(what, async () => {
      await page.keyboard.press('Control+s');
      const text = readFileSync(file, 'utf8');
      return wanted(text) && text;
    });
  };
  const lineOf = (text, part) => text.slice(0, text.indexOf(part)).split('\n').length;
  try {
    await test('starts a book in an empty folder, with a first tune that is explained and sound', async () => {
      await work.loaded();
      await work.command('Bullfiddle: New Tune Book');
      await until('the tab of the first tune', () => page.locator('.tab.active', { hasText: 'first-tune.abc' }).first().isVisible());
      assert.deepEqual(readdirSync(folder).sort(), ['bullfiddle.json', 'first-tune.abc']);
      await work.command('Bullfiddle: Open Sheet to the Side');
      await until('numbers in the tab', async () => (await work.stops()).length === 8, 60_000);
      assert.equal(await work.squiggles(), 0);
      await picture(page, 'new-book');
    });

    await test('mends a slur over one pitch by the fix it offers', async () => {
      const line = lineOf(readFileSync(file, 'utf8'), 'G,,B,,D,E,|');
      await work.goTo(line, 1);
      await page.keyboard.press('Shift+End');
      // With a selection, a bracket would be put around it.
      await page.keyboard.press('Delete');
      await page.keyboard.insertText('(G,,G,,)D,E,|D,B,,A,,G,,|]');
      await until('the squiggle', async () => (await work.squiggles()) > 0);
      await work.goTo(line, 3);
      await page.keyboard.press('Control+.');
      await page.locator('.action-widget .monaco-list-row').first().waitFor({ state: 'visible' });
      await picture(page, 'new-book-fixes');
      await page.keyboard.press('Enter');
      await until('no squiggle', async () => (await work.squiggles()) === 0);
      assert.match(await saved('the tie', (text) => text.includes('G,,-G,,')), /\nG,,-G,,D,E,\|D,B,,A,,G,,\|\]\n/);
    });

    await test('takes a melody from the web and cleans it', async () => {
      await page.keyboard.press('Control+End');
      await page.keyboard.insertText(pasted);
      await work.command('Bullfiddle: Clean Pasted Tune');
      const text = await saved('plain quotes', (now) => now.includes('"D"A2FA'));
      assert.ok(!/[\u201C\u201D\u00A0]/.test(text));
    });

    await test('arranges a low and a high version that have no error', async () => {
      await work.goTo(lineOf(readFileSync(file, 'utf8'), 'T:Kettle'), 1);
      await work.command('Bullfiddle: Arrange Low Version');
      await saved('the low version', (text) => text.includes('version=low'));
      await work.goTo(lineOf(readFileSync(file, 'utf8'), 'T:Kettle'), 1);
      await work.command('Bullfiddle: Arrange High Version');
      const text = await saved('the high version', (now) => now.includes('version=high'));
      assert.equal(text.match(/tune=kettle-on-the-hob version=source/g).length, 1);
      await until(
        'nothing found fault with',
        async () => (await work.squiggles()) === 0 && (await page.locator('.squiggly-warning').count()) === 0,
      );
      assert.match(text, /version=source[\s\S]*version=low[\s\S]*version=high/);
      await work.goTo(lineOf(text, 'version=low') + 6, 1);
      await until('the low version in the sheet', async () => (await work.stops()).length > 30, 60_000);
      await picture(page, 'new-book-low');
    });

    await test('inks the fingering at every note', async () => {
      const before = readFileSync(file, 'utf8');
      await work.goTo(lineOf(before, 'G,,-G,,'), 1);
      await work.command('Bullfiddle: Ink the Fingering at Every Note');
      const text = await saved('fingers in the first tune', (now) => /![0-4]!.*\|\]/.test(now));
      await picture(page, 'new-book-inked');
      assert.equal(text.replace(/!(?:[0-4]|sul[GDAE]|thumb)!/g, '').length, before.replace(/!(?:[0-4]|sul[GDAE]|thumb)!/g, '').length);
    });

    await test('writes a PDF of the tune to the file that is named', async () => {
      await work.command('Bullfiddle: Export Handout');
      const row = page.locator('.quick-input-list .monaco-list-row', { hasText: 'PDF: pages to print' });
      await row.waitFor({ state: 'visible' });
      await picture(page, 'new-book-export');
      await row.click();
      const name = page.locator('.quick-input-widget input').first();
      await until('the name offered', async () => (await name.inputValue()).endsWith('first-tune.pdf'));
      await picture(page, 'new-book-save');
      await page.keyboard.press('Enter');
      const pdf = join(folder, 'first-tune.pdf');
      await until('the PDF', () => existsSync(pdf) && readFileSync(pdf).subarray(0, 5).toString() === '%PDF-', 60_000);
      await page.locator('.notification-toast', { hasText: 'first-tune.pdf is written' }).waitFor({ state: 'visible' });
      await picture(page, 'new-book-exported');
    });

    await test('makes a lesson packet from the list in the editor, in the folder that is named', async () => {
      writeFileSync(join(folder, 'monday.json'), '{ "tunes": [{ "file": "first-tune.abc", "version": "low", "tempos": [80] }] }');
      await work.openFile('monday.json');
      await work.command('Bullfiddle: Make Lesson Packet');
      const name = page.locator('.quick-input-widget input').first();
      await until('the folder offered', async () => (await name.inputValue()).replace(/\/$/, '') === folder);
      await picture(page, 'new-book-packet');
      await page.locator('.quick-input-widget .monaco-button', { hasText: 'Write Here' }).click();
      const pdf = join(folder, 'monday.pdf');
      await until('the packet', () => existsSync(pdf) && readFileSync(pdf).subarray(0, 5).toString() === '%PDF-', 60_000);
      const toast = page.locator('.notification-toast', { hasText: /\d files are written/ });
      await until('the message', () => toast.first().isVisible(), 60_000);
      await picture(page, 'new-book-packet-made');
      assert.ok(readdirSync(folder).some((file) => file.endsWith('.wav')));
    });
  } finally {
    await bed.close();
  }
  return bed;
}
