// All commands, one a file.
import { commands, type ExtensionContext } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Line } from '../line.ts';
import type { BesidePanel } from '../preview/beside.ts';
import type { Sheets } from '../preview/sheets.ts';
import type { Program } from '../program.ts';
import { cleanPasted } from './clean-pasted.ts';
import { compareWithCommit } from './compare-commit.ts';
import { enterNote } from './enter-note.ts';
import { exportHandout } from './export-handout.ts';
import { lockSheet } from './lock-sheet.ts';
import { making } from './make-list.ts';
import { moveByBar } from './move-by-bar.ts';
import { newBook } from './new-book.ts';
import { openSheet } from './open-sheet.ts';
import { play, stop } from './play.ts';
import { showBeside } from './show-beside.ts';
import { showLog } from './show-log.ts';
import { transpose } from './transpose.ts';
import { granting } from './wish.ts';

export interface CommandTools {
  readonly sheets: Sheets;
  readonly beside: BesidePanel;
  readonly client: BaseLanguageClient;
  readonly line: Line;
  /** Our command line; null where no program can be run. */
  readonly program: Program | null;
}

const all: Readonly<Record<string, (tools: CommandTools) => unknown>> = {
  'bullfiddle.sheet.open': openSheet,
  'bullfiddle.sheet.lock': lockSheet,
  'bullfiddle.play': play,
  'bullfiddle.stop': stop,
  'bullfiddle.log': showLog,
  'bullfiddle.book.new': newBook,
  'bullfiddle.versions.beside': showBeside,
  'bullfiddle.arrange.low': granting({ kind: 'arrange', version: 'low' }),
  'bullfiddle.arrange.high': granting({ kind: 'arrange', version: 'high' }),
  'bullfiddle.arrange.backing': granting({ kind: 'arrange', version: 'backing' }),
  'bullfiddle.arrange.update': granting({ kind: 'update' }),
  'bullfiddle.transpose': transpose,
  'bullfiddle.ink.changes': granting({ kind: 'action', action: 'ink', variant: 'changes' }),
  'bullfiddle.ink.all': granting({ kind: 'action', action: 'ink', variant: 'all' }),
  'bullfiddle.octave.up': granting({ kind: 'action', action: 'move-octave', variant: 'up' }),
  'bullfiddle.octave.down': granting({ kind: 'action', action: 'move-octave', variant: 'down' }),
  'bullfiddle.note.enter': enterNote,
  'bullfiddle.bar.next': moveByBar('on'),
  'bullfiddle.bar.previous': moveByBar('back'),
  'bullfiddle.paste.clean': cleanPasted,
  'bullfiddle.compare': compareWithCommit,
  'bullfiddle.export': exportHandout,
  'bullfiddle.packet': making('packet'),
  'bullfiddle.booklet': making('booklet'),
};

export function registerCommands(context: ExtensionContext, tools: CommandTools): void {
  for (const [name, run] of Object.entries(all)) context.subscriptions.push(commands.registerCommand(name, () => run(tools)));
}
