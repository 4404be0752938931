// What the server needs of the place it runs in: a clock, a way to let others in, and files.

export interface Host {
  /** Milliseconds from some moment on. */
  now(): number;
  /** Runs `work` after the messages that wait have been read. */
  soon(work: () => void): void;
  /** The text of a file by its address, or null: used where the client does not read files for us. */
  read(uri: string): Promise<string | null>;
  /** Most bytes for tables of transitions. */
  readonly tableBytes: number;
}
