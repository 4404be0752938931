// All commands of the command line, in the order in which help lists them. One file a command; add it to this array.
import type { Command } from '../command.ts';

export const commands: readonly Command[] = [];
