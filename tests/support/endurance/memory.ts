// What a process has in use, its typed arrays and buffers included, which V8 keeps outside its heap.
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** Bytes in use after a full collection. `outside` the heap lie, among others, the contents of typed arrays and buffers: `arrays` says how much of it they are. */
export interface Memory {
  readonly heap: number;
  readonly outside: number;
  readonly arrays: number;
}

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** What this process has in use. */
export async function ownMemory(): Promise<Memory> {
  collect();
  // What lies outside the heap is freed a turn later than the objects that held it.
  await new Promise((resolve) => setImmediate(resolve));
  collect();
  const { heapUsed, external, arrayBuffers } = process.memoryUsage();
  return { heap: heapUsed, outside: external, arrays: arrayBuffers };
}

const mega = (bytes: number): string => (bytes / 2 ** 20).toFixed(2);

/** All in use; what `process.memoryUsage` calls external has its arrays in it already. */
const total = ({ heap, outside }: Memory): number => heap + outside;

/** `12.34 MB (10.00 objects, 2.00 arrays, 0.34 other)`. */
export const told = (memory: Memory): string =>
  `${mega(total(memory))} MB (${mega(memory.heap)} objects, ${mega(memory.arrays)} arrays, ${mega(memory.outside - memory.arrays)} other)`;

/** Flat is what takes at most this much more in the last third of a run than in the third before: caches have been full by then, and emptied again. */
const flat = 1.05;

/** The most that a stretch takes, but for its largest sample: a single text may take more for a moment, as one does in which many lines are new. */
const fullest = (part: readonly Memory[]): number => part.map(total).sort((a, b) => b - a)[part.length > 1 ? 1 : 0]!;

/** The most in each third of a run, and whether it ends flat: `page up to 13.80, 13.90, 14.00 MB by thirds, last over middle 1.007: flat (flat is at most 1.05)`. */
export function verdict(name: string, along: readonly Memory[]): string {
  const third = Math.floor(along.length / 3);
  const thirds = [along.slice(0, third), along.slice(third, 2 * third), along.slice(2 * third)];
  const [first, middle, last] = thirds.map(fullest) as [number, number, number];
  const growth = last / middle;
  const said = [first, middle, last].map(mega).join(', ');
  return `${name} up to ${said} MB by thirds, last over middle ${growth.toFixed(3)}: ${growth <= flat ? 'flat' : 'GROWING'} (flat is at most ${flat})`;
}
