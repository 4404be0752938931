// All commands of the command line, in the order in which help lists them. One file a command; add it to this array.
import type { Command } from '../command.ts';
import { finger } from './finger.ts';
import { format } from './format.ts';
import { notes } from './notes.ts';

export const commands: readonly Command[] = [notes, finger, format];
