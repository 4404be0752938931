// Fast typing by the real keyboard with the sheet beside: however long the tune, the last text is what is drawn, no older one over a newer one, and what was not edited keeps its numbers.
import assert from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedOfCheckout, emptyFolder } from './support/beds.mjs';
import { picture } from './support/pictures.mjs';
import { until } from './support/workbench.mjs';

const header = ['%abc-2.1', 'X:1', 'T:Fast', 'M:4/4', 'L:1/4', 'Q:1/4=80', 'K:G clef=bass'];
/** Notes below the open A: their one place is on the E string, whatever stands beside them. */
const bar = { music: 'E,,F,,G,,F,,|', stops: '0 2 3 2' };
const keys = 'G,,E,,F,,E,,|"Em"(G,,2F,,)!4!G,,|';
const typed = '3 0 2 0 3 2 3';

const tune = (bars) => [...header, ...Array.from({ length: bars / 4 }, () => bar.music.repeat(4))].join('\n');
const lastLine = (bars) => header.length + bars / 4;
const stopsOf = (bars) => Array.from({ length: bars }, () => bar.stops).join(' ');

/** The editor helps as it does unless told otherwise. */
const helps = {
  'editor.autoClosingBrackets': 'languageDefined',
  'editor.autoClosingQuotes': 'languageDefined',
  'editor.quickSuggestions': { other: 'on', comments: 'off', strings: 'off' },
  'editor.suggestOnTriggerCharacters': true,
};

export async function typing(browser, test) {
  const folder = emptyFolder('typing');
  for (const bars of [8, 64, 512]) writeFileSync(join(folder, `bars-${bars}.abc`), tune(bars));
  const { work, page, close } = await bedOfCheckout(browser, 'typing', folder);
  const root = () => work.sheet().locator('#sheet');
  const drawn = (what, stops) => until(what, async () => (await work.stops()).join(' ') === stops, 90_000);

  /** Keeps each version that is painted, with its count of numbers; returns what gives them. */
  async function watch() {
    await root().evaluate((sheet) => {
      const look = () => ({ version: Number(sheet.dataset.version), numbers: sheet.querySelectorAll('.tab-stop').length });
      sheet.painted = [look()];
      const observer = new MutationObserver(() => sheet.painted.push(look()));
      observer.observe(sheet, { attributeFilter: ['data-version'] });
    });
    return () => root().evaluate((sheet) => sheet.painted);
  }

  /** Types at the end of a line, and waits until the whole tune is drawn with what was typed. */
  async function typeAt(line, column, press, stops) {
    await work.goTo(line, column);
    const numbers = (await work.stops()).length;
    const painted = await watch();
    await press();
    await drawn('what was typed', stops);
    const all = await painted();
    const versions = all.map(({ version }) => version);
    assert.deepEqual(
      versions,
      [...versions].sort((a, b) => a - b),
      'no older text is painted over a newer one',
    );
    assert.ok(
      all.every((each) => each.numbers >= numbers),
      `all other notes keep their numbers: ${JSON.stringify(all)} of ${numbers}`,
    );
    return versions.at(-1) - versions[0];
  }

  /** Keys that wait for nothing. */
  const burst = () => Promise.all([...keys].map((key) => page.keyboard.press(key)));
  const steadily = () => page.keyboard.type(keys);

  try {
    await work.loaded();
    for (const bars of [8, 64, 512]) {
      await test(`draws what is typed fast at the end of ${bars} bars`, async () => {
        await work.openFile(`bars-${bars}.abc`);
        if (bars === 8) await work.command('Bullfiddle: Open Sheet to the Side');
        await drawn('the tune', stopsOf(bars));
        const versions = await typeAt(lastLine(bars), 4 * bar.music.length + 1, burst, `${stopsOf(bars)} ${typed}`);
        assert.equal(versions, keys.length, 'the last picture is of the last text: a version a key');
        assert.equal((await work.text()).at(-1), bar.music.repeat(4) + keys);
        await picture(page, `typing-${bars}`);
      });

      await test(`draws what is typed fast in the middle of ${bars} bars`, async () => {
        const stops = `${stopsOf(bars / 2)} ${typed} ${stopsOf(bars / 2)} ${typed}`;
        const versions = await typeAt(header.length + bars / 8, 4 * bar.music.length + 1, steadily, stops);
        assert.equal(versions, keys.length, 'the last picture is of the last text: a version a key');
        await picture(page, `typing-middle-${bars}`);
      });
    }

    await test('draws what is typed fast while the editor closes brackets and offers words', async () => {
      mkdirSync(join(folder, '.vscode'));
      writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify(helps));
      await work.openFile('bars-64.abc');
      const before = `${stopsOf(32)} ${typed} ${stopsOf(32)} ${typed}`;
      await drawn('the tune', before);
      await typeAt(lastLine(64), 4 * bar.music.length + keys.length + 1, steadily, `${before} ${typed}`);
      assert.equal((await work.text()).at(-1), bar.music.repeat(4) + keys + keys);
      await picture(page, 'typing-helped');
    });
  } finally {
    await close();
  }
}
