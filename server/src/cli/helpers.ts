// Helpers: threads that run this same program beside the first, an item at a time.
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { messageOf } from './sources.ts';

export interface Helper<T, R> {
  /**
   * What the thread makes of each item, in their order. Never rejects: if the thread dies, a new one takes the items singly,
   * and of one that kills its thread the result is what `lost` says.
   */
  run(items: readonly T[]): Promise<readonly R[]>;
  stop(): void;
}

type Outcome<R> = { readonly results: readonly R[] } | { readonly lost: string };

interface Asked<T, R> {
  readonly items: readonly T[];
  readonly settle: (outcome: Outcome<R>) => void;
}

/**
 * A helper that runs `program`, told `job`; its thread starts with its first items and takes them in their order.
 * Job, items and results travel as structured clones.
 */
export function startHelper<T, R>(program: string, job: unknown, lost: (item: T, reason: string) => R): Helper<T, R> {
  let thread: Worker | null = null;
  const waiting: Asked<T, R>[] = [];
  const send = (asked: Asked<T, R>): void => {
    thread ??= start();
    thread.postMessage(asked.items);
  };
  const start = (): Worker => {
    const started = new Worker(program, { workerData: job });
    const die = (reason: string): void => {
      // A thread that dies of an error also exits; by then another may be at work.
      if (thread !== started) return;
      thread = null;
      // It was at work on the first; the others have not been begun.
      waiting.shift()?.settle({ lost: reason });
      for (const asked of waiting) send(asked);
    };
    started.on('message', (results: readonly R[]) => waiting.shift()?.settle({ results }));
    started.on('error', (problem) => die(messageOf(problem)));
    started.on('exit', (code) => die(`the thread ended with code ${code}`));
    return started;
  };
  const answer = (items: readonly T[]): Promise<Outcome<R>> =>
    new Promise<Outcome<R>>((settle) => {
      const asked = { items, settle };
      send(asked);
      waiting.push(asked);
    }).catch((problem: unknown) => ({ lost: messageOf(problem) }));
  const run = async (items: readonly T[]): Promise<readonly R[]> => {
    const outcome = await answer(items);
    if ('results' in outcome) return outcome.results;
    if (items.length === 1) return [lost(items[0]!, outcome.lost)];
    const results: R[] = [];
    for (const item of items) results.push(...(await run([item])));
    return results;
  };
  return { run, stop: () => void thread?.terminate() };
}

/** The thread's side: answers the items that come, one lot after another, by the job it was told. */
export function serveItems<J, T, R>(workFor: (job: J) => (item: T) => Promise<R>): void {
  const work = workFor(workerData as J);
  const answer = async (items: readonly T[]): Promise<void> => {
    const results: R[] = [];
    for (const item of items) results.push(await work(item));
    parentPort?.postMessage(results);
  };
  let last = Promise.resolve();
  parentPort?.on('message', (items: readonly T[]) => {
    last = last.then(() => answer(items));
  });
}
