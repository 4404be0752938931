// From a changed scene to staff and tab on the screen, against the bare library redrawing the same tune in the same page and run.
import { browserPath, bundled, openPage, startBrowser } from '../support/page/browser.ts';
import { sceneOf } from '../support/page/scenes.ts';

const rounds = 12;
const warm = 4;
const bars = ['G,2B,D G,B,DG', 'C2EC A,CEA', 'D2F,A, D,E,F,A,', 'G,4 B,2D2'];

/** A tune of `count` bars, four a line; bar `edited` carries the change. */
function tuneOf(count: number, edited: number, change: number): string {
  const all = Array.from({ length: count }, (_, i) => (i === edited ? (change % 2 === 0 ? 'G,2A,B, C2D2' : 'G,2B,A, D2C2') : bars[i % 4]!));
  const lines: string[] = [];
  for (let i = 0; i < count; i += 4) lines.push(`${all.slice(i, i + 4).join('|')}|`);
  return `X:1\nT:Bench\nM:4/4\nL:1/8\nQ:1/4=100\nK:G clef=bass\n${lines.join('\n')}\n`;
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;
const worst = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length * 0.95)]!;

if (browserPath === null) console.log('No Chromium is installed: nothing was measured.');
else {
  const browser = await startBrowser();
  const bare = await bundled('tests/support/page/bare.ts');
  for (const size of [8, 64, 128, 512]) {
    const first = { ours: [] as number[], bare: [] as number[] };
    const page = await openPage(browser, { script: bare });
    /** Both sides are timed in the page, from the call to the frame after it. */
    const ours = (version: number) =>
      page.evaluate(
        (scene) => {
          const began = performance.now();
          return new Promise<number>((resolve) => {
            const { posted, send } = window as unknown as {
              posted: { kind: string; revision?: { document: number } }[];
              send(m: unknown): void;
            };
            posted.push = (...messages) => {
              for (const each of messages) {
                if (each.kind === 'painted' && each.revision?.document === scene.revision.document) resolve(performance.now() - began);
              }
              return 0;
            };
            send({ kind: 'scene', scene, look: { density: 'all', layout: 'stacked', follow: 'mouse' } });
          });
        },
        sceneOf(tuneOf(size, size >> 1, version), 0, version),
      );
    const library = (version: number) =>
      page.evaluate(
        (text) => {
          const began = performance.now();
          (window as unknown as { drawBare(text: string): void }).drawBare(text);
          return new Promise<number>((resolve) => {
            requestAnimationFrame(() => {
              const { port1, port2 } = new MessageChannel();
              port1.onmessage = () => resolve(performance.now() - began);
              port2.postMessage(null);
            });
          });
        },
        tuneOf(size, size >> 1, version),
      );
    const times = { ours: [] as number[], bare: [] as number[] };
    for (let i = 0; i < rounds + warm; i++) {
      const [a, b] = [await ours(i + 1), await library(i + 1)];
      if (i === 0) {
        first.ours.push(a);
        first.bare.push(b);
      }
      if (i >= warm) {
        times.ours.push(a);
        times.bare.push(b);
      }
    }
    const ratio = median(times.ours) / median(times.bare);
    const line = [times.ours, times.bare].map((side) => `${median(side).toFixed(1)} (p95 ${worst(side).toFixed(1)})`).join(' against ');
    console.log(
      `${size} bars, one-bar edit: ratio ${ratio.toFixed(2)}; ${line} ms; first picture ${first.ours[0]!.toFixed(0)} and then ${first.bare[0]!.toFixed(0)} ms`,
    );
    await page.close();
  }
  await browser.close();
}
