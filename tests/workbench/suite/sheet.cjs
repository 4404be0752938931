// The sheet under fast typing, by revision: the last text is drawn, and no more than one picture ever waits.
const assert = require('node:assert/strict');
const { commands, extensions, Selection, window, workspace } = require('vscode');
const { until } = require('./until.cjs');

const bar = 'G,A,B,D|';
const music = (bars) => Array.from({ length: bars / 4 }, () => bar.repeat(4)).join('\n');
const tune = (bars) => `%abc-2.1\nX:1\nT:Fast\nM:4/4\nL:1/4\nQ:1/4=80\nK:G clef=bass\n${music(bars)}`;

describe('the sheet', () => {
  for (const bars of [8, 64, 512]) {
    it(`ends with the last text drawn when ${bars} bars are typed into fast`, async () => {
      const { sheets } = await extensions.getExtension('bullfiddle.bullfiddle').activate();
      const document = await workspace.openTextDocument({ language: 'abc', content: tune(bars) });
      const editor = await window.showTextDocument(document);
      const end = document.positionAt(document.getText().length);
      editor.selection = new Selection(end, end);
      await commands.executeCommand('bullfiddle.sheet.open');
      const sheet = () => sheets().find((one) => one.uri === document.uri.toString());
      const upToDate = () => sheet()?.painted?.document === document.version && sheet().waiting === 0;
      await until('the first picture', upToDate, 90_000);

      let most = 0;
      const painted = [sheet().painted.document];
      const look = () => {
        most = Math.max(most, sheet().waiting);
        const now = sheet().painted.document;
        if (now !== painted.at(-1)) painted.push(now);
      };
      const watch = setInterval(look, 1);
      // Nothing awaits the single key.
      const keys = [...' D,A,,G,E,,|[G,B,]2z2|'].map((text) => commands.executeCommand('type', { text }));
      await Promise.all(keys);
      await until('the last text drawn', upToDate, 90_000);
      clearInterval(watch);
      // The last picture may have come since the last look.
      look();
      assert.ok(document.getText().endsWith('[G,B,]2z2|'));
      assert.ok(most <= 1, `${most} waited`);
      // No older text is ever painted over a newer one, and none that the document never was.
      assert.deepEqual(
        painted,
        [...painted].sort((a, b) => a - b),
      );
      assert.equal(painted.at(-1), document.version);
      assert.ok(painted.length <= keys.length + 1, `${painted.length} pictures for ${keys.length} keys`);
    });
  }
});
