// From a changed scene to staff and tab on the screen, against the bare library redrawing the same tune in the same page and run.
// Argument: edits a size (40).
import { browserPath, bundled, openPage, startBrowser } from '../support/page/browser.ts';
import { sceneOf } from '../support/page/scenes.ts';
import type { Timing } from '../support/page/timing.ts';

const edits = Number(process.argv[2] ?? 40);
const warm = 4;
const bars = ['G,2B,D G,B,DG', 'C2EC A,CEA', 'D2F,A, D,E,F,A,', 'G,4 B,2D2'];

/** A tune of `count` bars, four a line; the middle bar carries the change. */
function tuneOf(count: number, change: number): string {
  const edited = count >> 1;
  const all = Array.from({ length: count }, (_, i) => (i === edited ? (change % 2 === 0 ? 'G,2A,B, C2D2' : 'G,2B,A, D2C2') : bars[i % 4]!));
  const lines: string[] = [];
  for (let i = 0; i < count; i += 4) lines.push(`${all.slice(i, i + 4).join('|')}|`);
  return `X:1\nT:Bench\nM:4/4\nL:1/8\nQ:1/4=100\nK:G clef=bass\n${lines.join('\n')}\n`;
}

type Side = 'ours' | 'bare';
type Part = keyof Timing;

const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const median = (values: readonly number[]): number => sorted(values)[values.length >> 1]!;
const worst = (values: readonly number[]): number => sorted(values)[Math.floor(values.length * 0.95)]!;

/** The two sides take turns, each edit is drawn by both. */
function report(size: number, runs: readonly Readonly<Record<Side, Timing>>[]): string {
  const [first] = runs;
  const times = (side: Side, part: Part) => runs.slice(warm).map((run) => run[side][part]);
  const told = (part: Part): string => {
    const [ours, bare] = [times('ours', part), times('bare', part)];
    const figures = [ours, bare].map((side) => `${median(side).toFixed(1)} (p95 ${worst(side).toFixed(1)})`).join(' against ');
    return `${part} ${(median(ours) / median(bare)).toFixed(2)}, ${figures} ms`;
  };
  const pictures = `first picture ${first!.ours.painted.toFixed(0)} and then ${first!.bare.painted.toFixed(0)} ms`;
  return `${size} bars, one-bar edit: ${told('painted')}; ${told('work')}; ${pictures}`;
}

if (browserPath === null) console.log('No Chromium is installed: nothing was measured.');
else {
  const browser = await startBrowser();
  const script = await bundled('tests/support/page/timing.ts');
  for (const size of [8, 64, 128, 512]) {
    const page = await openPage(browser, { script });
    const given = [0, 1].map((change) => {
      const text = tuneOf(size, change);
      return { text, scene: sceneOf(text, 0) };
    });
    const runs = await page.evaluate(
      ([variants, count]) =>
        (window as unknown as { timeEdits(v: unknown, n: unknown): Promise<Record<Side, Timing>[]> }).timeEdits(variants, count),
      [given, edits + warm] as const,
    );
    console.log(report(size, runs));
    await page.close();
  }
  await browser.close();
}
