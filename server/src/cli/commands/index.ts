// All commands of the command line, in the order in which help lists them. One file a command; add it to this array.
import type { Command } from '../command.ts';
import { arrange } from './arrange.ts';
import { booklet } from './booklet.ts';
import { check } from './check.ts';
import { compare } from './compare.ts';
import { finger } from './finger.ts';
import { format } from './format.ts';
import { handout } from './handout.ts';
import { ink } from './ink.ts';
import { lsp } from './lsp.ts';
import { merge } from './merge.ts';
import { notes } from './notes.ts';
import { packet } from './packet.ts';
import { registers } from './registers.ts';
import { textconv } from './textconv.ts';
import { transpose } from './transpose.ts';

export const commands: readonly Command[] = [
  notes,
  finger,
  check,
  format,
  registers,
  arrange,
  ink,
  transpose,
  compare,
  textconv,
  merge,
  handout,
  booklet,
  packet,
  lsp,
];
