// A line on the terminal that says how far the work is, out of the way of what is printed.
import type { Io } from '../command.ts';

export interface Progress {
  /** Shows how many are done. */
  show(done: number): void;
  /** Takes the line away, so that other output can be written. */
  clear(): void;
}

/** `3 of 12 files` on standard error, where that is a terminal and there is more than one. */
export function progressOf(total: number, io: Io): Progress {
  if (!io.terminal || total < 2) return { show() {}, clear() {} };
  let shown = false;
  return {
    show(done) {
      io.err(`\r${done} of ${total} files`);
      shown = true;
    },
    clear() {
      if (shown) io.err('\r\x1b[K');
      shown = false;
    },
  };
}
