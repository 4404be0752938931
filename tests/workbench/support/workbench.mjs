// The workbench as a user drives it: open a file, run a command, type, read the sheet.

/** Polls until `look` gives something that is not null, undefined or false; throws with `what` after `ms`. */
export async function until(what, look, ms = 30_000) {
  const end = Date.now() + ms;
  let last;
  while (Date.now() < end) {
    try {
      last = await look();
      if (last !== null && last !== undefined && last !== false) return last;
    } catch (error) {
      last = error;
    }
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`Waited ${ms} ms for: ${what}${last instanceof Error ? ` (${last.message.split('\n')[0]})` : ''}`);
}

export function workbench(page) {
  const sheet = () => page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  const input = page.locator('.quick-input-widget .quick-input-box input');

  /** Picks a row of the quick input: lists fill late and a focus moved meanwhile closes it, so begin again if it does. */
  async function pick(open, text, row) {
    for (let tries = 0; tries < 5; tries++) {
      await page.keyboard.press(open);
      try {
        await input.waitFor({ state: 'visible', timeout: 5_000 });
        await input.fill(text);
        const wanted = page.locator('.quick-input-list .monaco-list-row', { hasText: row }).first();
        await wanted.waitFor({ state: 'visible', timeout: 8_000 });
        await wanted.click({ timeout: 5_000 });
        return;
      } catch {
        await page.keyboard.press('Escape');
      }
    }
    throw new Error(`No row "${row}" for "${text}"`);
  }

  const caretText = () => page.locator('[id="status.editor.selection"]').textContent();
  return {
    page,
    sheet,
    caretText,
    async loaded() {
      await page.locator('.explorer-folders-view').waitFor({ state: 'visible', timeout: 90_000 });
    },
    async openFile(name) {
      await page.keyboard.press('Control+1');
      await pick('Control+p', name, name);
      await until(`the editor of ${name}`, () => page.locator('.tab.active', { hasText: name }).first().isVisible());
    },
    /** Opens a file in the group that has the focus. */
    async openHere(name) {
      await pick('Control+p', name, name);
      await until(`the editor of ${name}`, () => page.locator('.tab.active', { hasText: name }).first().isVisible());
    },
    command: (title) => pick('F1', `>${title}`, title),
    async goTo(line, column = 1) {
      const there = async () => (await caretText()).includes(`Ln ${line}, Col ${column}`);
      await page.keyboard.press('Control+1');
      // A focus moved meanwhile closes the input, so begin again if the caret does not get there.
      await until(
        `the caret at ${line},${column}`,
        async () => {
          await page.keyboard.press('Control+g');
          await input.waitFor({ state: 'visible', timeout: 5_000 });
          await input.fill(`:${line},${column}`);
          await page.keyboard.press('Enter');
          return until('the caret there', there, 5_000);
        },
        60_000,
      );
    },
    /** What the hover at the caret says. */
    hover: () =>
      until('the hover', async () => {
        await page.keyboard.press('Control+k');
        await page.keyboard.press('Control+i');
        const hover = page.locator('.monaco-hover:not(.hidden)').first();
        await hover.waitFor({ state: 'visible', timeout: 5_000 });
        const said = await hover.textContent();
        // The editor says that it is loading before it says what is there.
        return !/^\s*Loading/.test(said) && said;
      }),
    /** The numbers of the tab, in reading order. */
    stops: () => sheet().locator('#sheet .tab-stop[role="button"]').allTextContents(),
    squiggles: () => page.locator('.squiggly-error').count(),
    /** Rows of the Problems view. */
    async problems() {
      return page.locator('.markers-panel .monaco-list-row').allInnerTexts();
    },
    async text() {
      const lines = await page.locator('.editor-group-container').first().locator('.view-line').allInnerTexts();
      return lines.map((line) => line.replace(/\u00a0/g, ' '));
    },
  };
}
