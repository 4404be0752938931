// Moves the caret to the next bar or the one before.
import { Selection } from 'vscode';
import type { CommandTools } from './index.ts';
import { tuneEditor } from './wish.ts';

export const moveByBar =
  (way: 'on' | 'back') =>
  async ({ line }: CommandTools): Promise<void> => {
    const editor = tuneEditor();
    if (!editor) return;
    const { document } = editor;
    const { version } = document;
    const goal = await line.ask('bullfiddle/bar', {
      uri: document.uri.toString(),
      offset: document.offsetAt(editor.selection.active),
      way,
    });
    if (goal === null || document.version !== version) return;
    const place = document.positionAt(goal);
    editor.selection = new Selection(place, place);
    editor.revealRange(editor.selection);
  };
