// Runs in the page: times edits drawn by the page, by the bare engraving library, and by the library with our room for the tab, in turns.
import abcjs from 'abcjs';
import type { FromPage, Scene, ToPage } from '../../../client/messages.ts';
import { tabRoom } from '../../../server/src/drawing/index.ts';
import { roomsFor } from '../../../server/src/engraving/room.ts';

/** `roomy` is the bare library that leaves the room under each staff that our tab takes. */
export type Side = 'ours' | 'bare' | 'roomy';

/** ms from the call until the work is done (styles and layout included) and until the frame after it is painted. */
export interface Timing {
  readonly work: number;
  readonly painted: number;
}

interface Variant {
  readonly text: string;
  readonly scene: Scene;
}

interface Stand {
  posted: FromPage[];
  send(message: ToPage): void;
  timeFirst(variant: Variant, side: Side): Promise<number>;
  timeEdits(variants: readonly Variant[], count: number): Promise<Readonly<Record<Side, Timing>>[]>;
}

const stand = window as unknown as Stand;
const host = document.createElement('div');

const frame = (): Promise<void> =>
  new Promise((resolve) => {
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => resolve();
      port2.postMessage(null);
    });
  });

/** The work of an edit ends with the forced layout: what is left is paint. */
const layOut = (): number => document.body.getBoundingClientRect().height;

interface Parsed {
  tablatures: ReturnType<typeof roomsFor>;
}

/** The last staff of a line gets no room of its own from `roomsFor`: a second, which no tune here has, lets the first have it. */
function withRoom(tune: Parsed): Parsed {
  tune.tablatures = roomsFor([tabRoom, 0]);
  return tune;
}

async function bare(text: string, side: 'bare' | 'roomy'): Promise<Timing> {
  const options = side === 'roomy' ? { afterParsing: withRoom as never } : {};
  const began = performance.now();
  if (host.parentNode === null) document.body.append(host);
  abcjs.renderAbc(host, text, { add_classes: true, ...options });
  layOut();
  const work = performance.now() - began;
  await frame();
  return { work, painted: performance.now() - began };
}

/** The page asks for a frame when its work is done. */
function ours(scene: Scene): Promise<Timing> {
  const began = performance.now();
  let work = 0;
  const ask = window.requestAnimationFrame;
  window.requestAnimationFrame = (then) => {
    layOut();
    work = performance.now() - began;
    window.requestAnimationFrame = ask;
    return ask.call(window, then);
  };
  return new Promise((resolve) => {
    stand.posted.push = (...messages) => {
      if (messages.some((each) => each.kind === 'painted')) resolve({ work, painted: performance.now() - began });
      return 0;
    };
    stand.send({ kind: 'scene', scene, look: { density: 'all', layout: 'stacked', follow: 'mouse' } });
  });
}

/** ms to the first picture in a fresh page: what the panel shows of it, all of it for the bare library. */
stand.timeFirst = async ({ text, scene }, side) => {
  if (side !== 'ours') return (await bare(text, side)).painted;
  const began = performance.now();
  stand.send({ kind: 'scene', scene, look: { density: 'all', layout: 'stacked', follow: 'mouse' } });
  do await frame();
  while (document.querySelector('.system > svg') === null);
  return performance.now() - began;
};

/** A key may come at any time of a frame, and when what came before is painted: so do the edits, each side alike. */
const rest = (i: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, 40 + ((i * 7) % 17)));

stand.timeEdits = async (variants, count) => {
  const runs: Record<Side, Timing>[] = [];
  for (let i = 0; i < count; i++) {
    const { text, scene } = variants[i % variants.length]!;
    await rest(i);
    const own = await ours({ ...scene, revision: { document: i + 1, settings: 1 } });
    await rest(i);
    const plain = await bare(text, 'bare');
    await rest(i);
    runs.push({ ours: own, bare: plain, roomy: await bare(text, 'roomy') });
  }
  return runs;
};
