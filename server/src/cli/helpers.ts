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

/** A helper that runs `program`, told `job`; its thread starts with its first items. Job, items and results travel as structured clones. */
export function startHelper<T, R>(program: string, job: unknown, lost: (item: T, reason: string) => R): Helper<T, R> {
  let thread: Worker | null = null;
  let settle = (_: Outcome<R>): void => {};
  const start = (): Worker => {
    const started = new Worker(program, { workerData: job });
    const die = (reason: string): void => {
      // A thread that dies of an error also exits; by then another may be at work.
      if (thread !== started) return;
      thread = null;
      settle({ lost: reason });
    };
    started.on('message', (results: readonly R[]) => settle({ results }));
    started.on('error', (problem) => die(messageOf(problem)));
    started.on('exit', (code) => die(`the thread ended with code ${code}`));
    return started;
  };
  const answer = (items: readonly T[]): Promise<Outcome<R>> =>
    new Promise<Outcome<R>>((resolve) => {
      settle = resolve;
      thread ??= start();
      thread.postMessage(items);
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

/** The thread's side: answers the items that come, by the job it was told. */
export function serveItems<J, T, R>(workFor: (job: J) => (item: T) => Promise<R>): void {
  const work = workFor(workerData as J);
  parentPort?.on('message', async (items: readonly T[]) => {
    const results: R[] = [];
    for (const item of items) results.push(await work(item));
    parentPort?.postMessage(results);
  });
}
