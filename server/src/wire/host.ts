// What the server needs of the place it runs in: a clock, a way to let others in, and files.

import type * as Handout from '../handout/index.ts';

/** Loads on demand: the makers of handouts are as large as the rest of the server. */
export interface HandoutMaker {
  load(): Promise<typeof Handout>;
  /** The bytes of a font file of the page. */
  font(name: Handout.FontName): Promise<Uint8Array>;
}

export interface Host {
  /** Milliseconds from some moment on. */
  now(): number;
  /** Runs `work` after the messages that wait have been read. */
  soon(work: () => void): void;
  /** The text of a file by its address, or null: used where the client does not read files for us. */
  read(uri: string): Promise<string | null>;
  /** What makes handouts, with its fonts; null where none can be loaded. */
  readonly handouts: HandoutMaker | null;
  /** Most bytes for tables of transitions. */
  readonly tableBytes: number;
}
