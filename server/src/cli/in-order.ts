// Work done side by side, its results in the order of the items.

/** How many results for each worker may wait for an earlier one: enough to keep all busy beside one long item, few enough to hold. */
const AHEAD = 16;

/** Does one item; never rejects. */
export type Work<T, R> = (item: T) => Promise<R>;

/** The results of `items` in their order, each made by whichever of `workers` is free; items are handed out in order. */
export async function* inOrder<T, R>(items: readonly T[], workers: readonly Work<T, R>[]): AsyncGenerator<R> {
  const free = [...workers];
  const queue: ((work: Work<T, R>) => void)[] = [];
  const start = async (item: T): Promise<R> => {
    const work = free.pop() ?? (await new Promise<Work<T, R>>((resolve) => queue.push(resolve)));
    const result = await work(item);
    const waiting = queue.shift();
    if (waiting === undefined) free.push(work);
    else waiting(work);
    return result;
  };
  const running: Promise<R>[] = [];
  let next = 0;
  for (let done = 0; done < items.length; done++) {
    while (next < items.length && next - done < AHEAD * workers.length) running.push(start(items[next++]!));
    yield await running.shift()!;
  }
}
