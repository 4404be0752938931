// What a command of the command line is, and the world it sees: all reading and writing goes through `Io`, so tests need no process.
import type { Helper } from './helpers.ts';
import type { Reported } from './output/report.ts';

/** 0 fine, 1 findings at or over the asked severity, 2 usage or unreadable input (2 beats 1). */
export type ExitCode = 0 | 1 | 2;

/** How to check files; a plain value, so that a helper on another thread can be told it. */
export interface CheckJob {
  readonly format: 'text' | 'json' | 'sarif' | 'github';
  /** The player of bullfiddle.json to judge for; null for the usual one. */
  readonly player: string | null;
  readonly stdinName: string | null;
}

/** A file as checked, as plain a value. */
export interface CheckedFile {
  /** Whether it was read and checked; if not, `said` tells why. */
  readonly judged: boolean;
  readonly findings: readonly Reported[];
  /** The findings as they are printed; empty in SARIF, which has one text for all files. */
  readonly printed: string;
  /** Messages for standard error. */
  readonly said: readonly string[];
}

export type FileBytes = Uint8Array | string | AsyncIterable<Uint8Array>;

export interface Io {
  readonly cwd: string;
  /** Bytes decoded as UTF-8; rejects with a message a person understands. `-` is standard input. */
  read(path: string): Promise<string>;
  /** Tune files (.abc) under a folder, sorted; a file gives itself. */
  list(path: string): Promise<readonly string[]>;
  /** Bytes of a file; 0 for standard input, and where it cannot be read. */
  size(path: string): Promise<number>;
  /** Whether a path, its links followed, lies in the folder or below it; rejects if it does not exist. */
  isInside(folder: string, path: string): Promise<boolean>;
  /** Writes a file whole or not at all; bytes that come in pieces are written as they come. */
  write(path: string, bytes: FileBytes): Promise<void>;
  /** A file that comes with the product, by its place under `media/`. */
  asset(name: string): Promise<Uint8Array>;
  /** The version (a short commit name, `+` where changed since) and day of a file by its git history; null where it has none. */
  history(path: string): Promise<{ readonly version: string; readonly date: string } | null>;
  out(text: string): void;
  err(text: string): void;
  /** The same world with its messages going elsewhere. */
  sayingTo(err: (text: string) => void): Io;
  /** Helpers that check files beside each other on all cores, none started before its first file; empty where there is one core, or no threads. */
  helpers(job: CheckJob): readonly Helper<string, CheckedFile>[];
  /** Whether messages go to a terminal (progress lines are shown only there). */
  readonly terminal: boolean;
}

export interface Command {
  readonly name: string;
  /** One line: what it does for the player. */
  readonly summary: string;
  /** How to call it, with each option. */
  readonly usage: string;
  run(args: readonly string[], io: Io): Promise<ExitCode>;
}
