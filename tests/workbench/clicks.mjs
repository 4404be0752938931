// A click on the sheet selects the very place in the text: graces, members of chords, both ends of a tie, repeated notes, second voices, syllables, chord symbols, bars; with CRLF line ends, and after later edits above.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, emptyFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

const lines = [
  '%abc-2.1',
  'X:1',
  'T:Clicks',
  'M:4/4',
  'L:1/4',
  'K:G clef=bass',
  '|:"G"{A,}G,[D,B,]D2-|D2"Am"A,G,:|',
  'w:one two three four five six',
  '',
  'X:2',
  'T:Two Voices',
  'M:4/4',
  'L:1/4',
  'V:1 clef=bass',
  'V:2 clef=bass',
  'K:G',
  '[V:1]G,A,B,D|',
  '[V:2]D,E,G,,A,,|',
];
const lineOf = (text) => lines.findIndex((line) => line.includes(text)) + 1;

export async function clicks(browser, test) {
  const folder = emptyFolder('clicks');
  writeFileSync(join(folder, 'clicks.abc'), `${lines.join('\r\n')}\r\n`);
  const bed = await bedOfCheckout(browser, 'clicks', folder);
  const { work, page } = bed;
  const engraving = (what) => work.sheet().locator(`.engraving ${what}`);

  /** Heads from left to right, of a chord the upper first. */
  async function heads() {
    const found = await engraving('.abcjs-notehead').all();
    const boxes = await Promise.all(found.map((head) => head.boundingBox()));
    return boxes.map((box) => ({ x: box.x + box.width / 2, y: box.y + box.height / 2 })).sort((a, b) => a.x - b.x || a.y - b.y);
  }
  const clickAt = ({ x, y }) => page.mouse.click(x, y);
  const clickOn = async (locator) => {
    const box = await locator.boundingBox();
    await clickAt({ x: box.x + box.width / 2, y: box.y + box.height / 2 });
  };
  /** That this piece of this line is selected; `below` lines stand above that were not there at first. */
  const selected = (line, column, length, below = 0) =>
    until(
      `${length} selected at line ${line + below}, column ${column}`,
      async () => {
        // The click has the focus; where the caret stands is shown for the editor that has it.
        await page.keyboard.press('Control+1');
        const [, ln, col, count] = /Ln (\d+), Col (\d+) \((\d+) selected\)/.exec(await work.caretText()) ?? [];
        return Number(ln) === line + below && Number(count) === length && [column, column + length].includes(Number(col));
      },
      20_000,
    );
  const music = lines[6];
  const at = (piece, from = 0) => music.indexOf(piece, from) + 1;

  try {
    await test('selects a grace, a note, each member of a chord, and both ends of a tie', async () => {
      await work.loaded();
      await work.openFile('clicks.abc');
      await work.goTo(7, 1);
      await work.command('Bullfiddle: Open Sheet to the Side');
      const all = await until('eight heads', async () => {
        const found = await heads();
        return found.length === 8 && found;
      });
      await picture(page, 'clicks');
      const tied = music.indexOf('D2', at('D2'));
      const places = [
        [at('A,}'), 2],
        [at('G,['), 2],
        [at('B,]'), 2],
        [at('D,B'), 2],
        [at('D2-'), 2],
        [tied + 1, 2],
        [at('A,G'), 2],
        [at('G,:'), 2],
      ];
      for (const [i, [column, length]] of places.entries()) {
        await clickAt(all[i]);
        await selected(7, column, length);
      }
    });

    await test('selects a syllable, a chord symbol and a bar line', async () => {
      await clickOn(engraving('[data-name="lyric"] tspan').filter({ hasText: 'three' }).first());
      await selected(8, lines[7].indexOf('three') + 1, 5);
      await clickOn(engraving('text[data-name="chord"]').last());
      await selected(7, at('"Am"'), 4);
      const bars = await Promise.all((await engraving('path[data-name="bar"]').all()).map((bar) => bar.boundingBox()));
      const inner = bars.sort((a, b) => a.x - b.x).at(-3);
      await clickAt({ x: inner.x + inner.width / 2, y: inner.y + 3 });
      await selected(7, at('|D2'), 1);
    });

    await test('still selects the same notes after lines came above them', async () => {
      await work.goTo(4, 1);
      await page.keyboard.insertText('T:Known Otherwise\nZ:another line\n');
      await until('the second title on the sheet', async () => (await work.sheet().getByText('Known Otherwise').count()) > 0);
      const all = await heads();
      await clickAt(all[2]);
      await selected(7, at('B,]'), 2, 2);
    });

    await test('leaves the caret where the player has gone since a click that a busy sheet heeds late', async () => {
      await work.goTo(5, 1);
      await work
        .sheet()
        .locator('.tab-stop[role="button"]')
        .nth(1)
        .evaluate((stop) => {
          const { x, y, width, height } = stop.getBoundingClientRect();
          const event = new MouseEvent('click', { clientX: x + width / 2, clientY: y + height / 2, bubbles: true });
          Object.defineProperty(event, 'timeStamp', { value: performance.now() - 60_000 });
          stop.dispatchEvent(event);
        });
      await until('the places offered for the click', () => work.sheet().locator('.places button').first().isVisible());
      // The list takes the focus when the editor gives it to the sheet, which may be later.
      await until('the text in front', async () => {
        await page.keyboard.press('Control+1');
        return page.locator('[id="status.editor.selection"]').isVisible();
      });
      assert.match(await work.caretText(), /Ln 5, Col 1$/);
      await work.sheet().locator('body').press('Escape');
    });

    await test('selects notes of the second voice', async () => {
      await work.goTo(lineOf('[V:1]') + 2, 6);
      const all = await until('both voices', async () => {
        const found = await heads();
        return (
          found.length === 8 && (await work.sheet().locator('h1, .title, text').filter({ hasText: 'Two Voices' }).count()) > 0 && found
        );
      });
      const lower = all
        .sort((a, b) => b.y - a.y)
        .slice(0, 4)
        .sort((a, b) => a.x - b.x);
      await clickAt(lower[1]);
      await selected(lineOf('[V:2]'), lines.at(-1).indexOf('E,') + 1, 2, 2);
      await picture(page, 'clicks-voices');
    });
  } finally {
    await bed.close();
  }
}
