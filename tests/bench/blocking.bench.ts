// How long the server blocks while it fingers a long tune, and when it drops one midway: the slices of its own scheduler over its own analysis. Prints figures; judges nothing.
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig } from '../../server/src/arrangement/index.ts';
import { makeTables } from '../../server/src/fingering/index.ts';
import { makeAnalysis } from '../../server/src/wire/analysis.ts';
import type { OpenDocument } from '../../server/src/wire/documents.ts';
import type { Host } from '../../server/src/wire/host.ts';
import { makeScheduler } from '../../server/src/wire/scheduler.ts';
import { randomOf } from '../support/random-task.ts';

const scale = ['E,,', 'F,,', 'G,,', 'A,,', 'B,,', 'C,', 'D,', 'E,', 'F,', 'G,', 'A,', 'B,'];

/** A tune of `notes` quarters in four to the bar. */
function tune(notes: number): string {
  const random = randomOf(1);
  const bars = Array.from({ length: notes / 4 }, () =>
    Array.from({ length: 4 }, () => scale[Math.floor(random() * scale.length)]).join(''),
  );
  return `X:1\nT:t\nM:4/4\nL:1/4\nQ:1/4=80\nK:C clef=bass\n${bars.join('|')}|\n`;
}

/** Works through a tune; drops it after `dropAfter` slices. Gives the length of each slice in ms. */
async function slicesOf(text: string, dropAfter: number): Promise<readonly number[]> {
  const slices: number[] = [];
  // Turns that only let messages in are not counted.
  let worked = false;
  const soon = (work: () => void): void => {
    setImmediate(() => {
      const start = performance.now();
      worked = false;
      work();
      if (worked) slices.push(performance.now() - start);
    });
  };
  const scheduler = makeScheduler({ now: () => performance.now(), soon } as Host, (_, problem) => {
    throw problem;
  });
  const document = { book: readBook(text) } as OpenDocument;
  const work = makeAnalysis(makeTables(32e6)).work(document, defaultConfig, 0, 'any-plan', () => {});
  const step = (): boolean => {
    worked = true;
    return work.next().done === true;
  };
  scheduler.put({ key: 'tune', urgency: 0, begins: 'at-once', step });
  while (scheduler.waiting > 0) {
    if (slices.length >= dropAfter) scheduler.drop('tune');
    await new Promise((resolve) => setImmediate(resolve));
  }
  return slices;
}

const said = (slices: readonly number[]): string => {
  const sorted = [...slices].sort((a, b) => a - b);
  return `${slices.length} slices, median ${sorted[Math.floor(sorted.length / 2)]!.toFixed(1)}, longest ${sorted.at(-1)!.toFixed(1)} ms`;
};

await slicesOf(tune(400), Number.POSITIVE_INFINITY);
for (const notes of [512, 2000, 10_000]) {
  const whole = await slicesOf(tune(notes), Number.POSITIVE_INFINITY);
  // What comes first reads the part and its findings, what comes last lays out the plan: neither is search.
  console.log(`${notes} notes: ${said(whole)}; without the first and the last two: ${said(whole.slice(1, -2))}`);
  const dropped = await slicesOf(tune(notes), Math.floor(whole.length / 2));
  console.log(`  dropped midway: the slice under way took ${dropped.at(-1)!.toFixed(1)} ms`);
}
