// From a changed scene to staff and tab on the screen, against the bare library redrawing the same tune in the same page and run.
// Argument: edits a size (40).
import type { Browser } from 'playwright-core';
import { browserPath, bundled, openPage, startBrowser } from '../support/page/browser.ts';
import { sceneOf } from '../support/page/scenes.ts';
import type { Side, Timing } from '../support/page/timing.ts';

const edits = Number(process.argv[2] ?? 40);
const warm = 4;
const firsts = 5;
/** What the edited bar becomes: other pitches, then other lengths, so that all after it on its line moves. */
const changes = ['G,2A,B, C2D2', 'G,2B,A, D2C2', 'G,A,B,C DB,G,2'];
const bars = ['G,2B,D G,B,DG', 'C2EC A,CEA', 'D2F,A, D,E,F,A,', 'G,4 B,2D2'];

/** A tune of `count` bars, four a line; the middle bar carries the change. */
function tuneOf(count: number, change: number): string {
  const edited = count >> 1;
  const all = Array.from({ length: count }, (_, i) => (i === edited ? changes[change]! : bars[i % 4]!));
  const lines: string[] = [];
  for (let i = 0; i < count; i += 4) lines.push(`${all.slice(i, i + 4).join('|')}|`);
  return `X:1\nT:Bench\nM:4/4\nL:1/8\nQ:1/4=100\nK:G clef=bass\n${lines.join('\n')}\n`;
}

type Part = keyof Timing;
type Runs = readonly Readonly<Record<Side, Timing>>[];

const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const median = (values: readonly number[]): number => sorted(values)[values.length >> 1]!;
const worst = (values: readonly number[]): number => sorted(values)[Math.floor(values.length * 0.95)]!;

const screenTurn = 1000 / 60;
/** Turns of the screen that pass while an edit is drawn: frames dropped. */
const dropped = (painted: number): number => Math.floor(painted / screenTurn);

const names: Readonly<Record<Side, string>> = { ours: 'ours', bare: 'the bare library', roomy: 'the library with room for tab' };

/** The sides take turns, each edit is drawn by all. */
function report(size: number, runs: Runs): string {
  const times = (side: Side, part: Part) => runs.slice(warm).map((run) => run[side][part]);
  const against = (side: Side, part: Part) => `${(median(times('ours', part)) / median(times(side, part))).toFixed(2)}`;
  const lines = (['ours', 'bare', 'roomy'] as const).map((side) => {
    const [painted, work] = [times(side, 'painted'), times(side, 'work')];
    const told = [painted, work].map((part) => `p50 ${median(part).toFixed(1)} p95 ${worst(part).toFixed(1)}`);
    const frames = painted.reduce((sum, each) => sum + dropped(each), 0) / painted.length;
    return `  ${names[side]}: painted ${told[0]} ms, work ${told[1]} ms, frames dropped an edit ${frames.toFixed(2)}`;
  });
  const ratios = (['bare', 'roomy'] as const).map(
    (side) => `against ${names[side]} painted ${against(side, 'painted')}, work ${against(side, 'work')}`,
  );
  return [`${size} bars, one-bar edit: ${ratios.join('; ')}`, ...lines].join('\n');
}

/** ms to the first picture, each in a page of its own: ours has warmed up while it waited, the bare library has nothing to warm it. */
async function firstPicture(browser: Browser, script: string, variant: unknown, side: Side): Promise<number> {
  const page = side === 'ours' ? await openPage(browser, { script }) : await browser.newPage();
  if (side === 'bare')
    await page.setContent(`<!doctype html><html><body><script>${script.replaceAll('</script', '<\\/script')}</script></body></html>`);
  const ms = await page.evaluate(
    ([given, which]) => (window as unknown as { timeFirst(v: unknown, s: unknown): Promise<number> }).timeFirst(given, which),
    [variant, side] as const,
  );
  await page.close();
  return ms;
}

if (browserPath === null) console.log('No Chromium is installed: nothing was measured.');
else {
  const browser = await startBrowser();
  const script = await bundled('tests/support/page/timing.ts');
  for (const size of [8, 64, 128, 512]) {
    const page = await openPage(browser, { script });
    const given = changes.map((_, change) => {
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
    const first: Record<'ours' | 'bare', number[]> = { ours: [], bare: [] };
    for (let i = 0; i < firsts; i++)
      for (const side of ['ours', 'bare'] as const) first[side].push(await firstPicture(browser, script, given[0], side));
    const [ours, bare] = [median(first.ours), median(first.bare)];
    console.log(`${size} bars, first picture: ${(ours / bare).toFixed(2)}, ${ours.toFixed(0)} against ${bare.toFixed(0)} ms`);
  }
  await browser.close();
}
