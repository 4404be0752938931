// A book that is hard on places: CRLF line ends, and characters of two UTF-16 units in titles, comments and texts. Squiggles, tokens and clicks must sit on their notes.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, demoFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

const lines = [
  '%abc-2.1',
  '% 🎻🎶 Tunes of the keeper',
  'X:1',
  'T:🎻 The Fiddler 🎸',
  'M:4/4',
  'L:1/4',
  'K:G clef=bass',
  '"^🎻 all"G,A,B,D|% 🎶',
  '"^🎶🎶"G,A,B,|"^𝄞"D4|',
  '',
  'X:2',
  'T:🎸🎸',
  'M:4/4',
  'L:1/4',
  'K:D clef=bass',
  '"^🎻"D,E,#F,A,|',
];

/** Where a piece of a line is painted, and where the squiggles are, in pixels of the page. */
function placesOf([line, piece]) {
  const wanted = (text) => text.replace(/\u00a0/g, ' ');
  const box = ({ left, right, top, bottom }) => ({ left, right, top, bottom });
  const row = [...document.querySelectorAll('.view-line')].find((one) => wanted(one.textContent) === line);
  const walker = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  const [from, to] = [line.indexOf(piece), line.indexOf(piece) + piece.length];
  for (let at = 0, node = walker.nextNode(); node; at += node.length, node = walker.nextNode()) {
    if (at <= from && from < at + node.length) range.setStart(node, from - at);
    if (at < to && to <= at + node.length) range.setEnd(node, to - at);
  }
  const squiggles = [...document.querySelectorAll('.squiggly-error, .squiggly-warning')].map((one) => box(one.getBoundingClientRect()));
  return { text: box(range.getBoundingClientRect()), squiggles };
}

export async function hardText(browser, test) {
  const folder = demoFolder('hard-text');
  writeFileSync(join(folder, 'hard.abc'), `${lines.join('\r\n')}\r\n`);
  const bed = await bedOfCheckout(browser, 'hard-text', folder);
  const { work, page } = bed;

  /** Whether some squiggle lies under this piece, and under nothing else of its line. */
  const underlined = (line, piece) =>
    until(`a squiggle under ${piece}`, async () => {
      const { text, squiggles } = await page.evaluate(placesOf, [line, piece]);
      const near = (a, b) => Math.abs(a - b) < 2;
      return squiggles.some(
        ({ left, right, bottom }) => near(left, text.left) && near(right, text.right) && bottom > text.top && bottom < text.bottom + 6,
      );
    });

  try {
    await test('opens a CRLF book with titles of two-unit characters', async () => {
      await work.loaded();
      await work.openFile('hard.abc');
      await work.command('Bullfiddle: Open Sheet to the Side');
      await work.goTo(8, 1);
      await until('the tab of its eight notes', async () => (await work.stops()).length === 8);
      assert.equal(await page.locator('[id="status.editor.eol"]').textContent(), 'CRLF');
    });

    await test('underlines a short bar on its notes, after two-unit characters', async () => {
      await underlined(lines[8], 'G,A,B,|');
      await picture(page, 'hard-squiggle');
    });

    await test('goes by F8 to the first note of the bar', async () => {
      await work.goTo(1, 1);
      await page.keyboard.press('F8');
      await until('the finding', async () => /bar\.too-short/.test(await page.locator('.marker-widget').textContent()));
      // The status bar counts characters, not units: five stand before the note.
      await until('the caret at the bar', async () => (await work.caretText()).includes('Ln 9, Col 6'));
      await page.keyboard.press('Escape');
    });

    await test('colours that note from the tree', async () => {
      await work.command('Developer: Inspect Editor Tokens and Scopes');
      // The widget says that it is loading before it says what is there.
      const shown = await until('the token', async () => {
        const now = await page.locator('.token-inspect-widget').textContent();
        return /semantic token type/.test(now) && now;
      });
      assert.match(shown, /^G,\s*\(?2 chars/);
      // The grammar has a token for the letter alone.
      assert.match(shown, /semantic token type\s*variable/);
      await picture(page, 'hard-token');
      await page.keyboard.press('Escape');
    });

    await test('fills the bar at its end', async () => {
      await page.keyboard.press('Control+.');
      await page.locator('.action-widget .monaco-list-row').first().waitFor({ state: 'visible' });
      await page.keyboard.press('Enter');
      await until('the bar filled', async () => (await work.text()).includes('"^🎶🎶"G,A,B,z|"^𝄞"D4|'));
    });

    await test('underlines one sign in the second tune', async () => {
      await work.goTo(16, 1);
      await underlined(lines[15], '#');
    });

    await test('selects the very note of a number that is clicked', async () => {
      await work.goTo(8, 1);
      const second = work.sheet().locator('#sheet .tab-stop[role="button"]').nth(1);
      await second.focus();
      await second.press('Enter');
      await until('two units selected', async () => (await work.caretText()).includes('(2 selected)'));
      await page.keyboard.type('C,');
      await until('that note typed over', async () => (await work.text()).includes('"^🎻 all"G,C,B,D|% 🎶'));
    });
  } finally {
    await bed.close();
  }
  return bed;
}
