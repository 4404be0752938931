// All commands, one a file.
import { commands, type ExtensionContext } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Sheets } from '../preview/sheets.ts';
import { lockSheet } from './lock-sheet.ts';
import { openSheet } from './open-sheet.ts';
import { play, stop } from './play.ts';
import { showLog } from './show-log.ts';

export interface CommandTools {
  readonly sheets: Sheets;
  readonly client: BaseLanguageClient;
}

const all: Readonly<Record<string, (tools: CommandTools) => unknown>> = {
  'bullfiddle.sheet.open': openSheet,
  'bullfiddle.sheet.lock': lockSheet,
  'bullfiddle.play': play,
  'bullfiddle.stop': stop,
  'bullfiddle.log': showLog,
};

export function registerCommands(context: ExtensionContext, tools: CommandTools): void {
  for (const [name, run] of Object.entries(all)) context.subscriptions.push(commands.registerCommand(name, () => run(tools)));
}
