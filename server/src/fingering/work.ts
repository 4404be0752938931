// Work in slices: generators that yield about how many edges they went through since they yielded last.

/** Something that takes long, to be worked on a piece at a time. */
export type Work<T> = Generator<number, T>;

/** Works to the end at once. */
export function finish<T>(work: Work<T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}
