// Shows the low and the high version of the tune at the caret side by side.
import type { CommandTools } from './index.ts';
import { tuneEditor } from './wish.ts';

export async function showBeside({ beside }: CommandTools): Promise<void> {
  const editor = tuneEditor();
  if (editor) await beside.show(editor.document, editor.document.offsetAt(editor.selection.start));
}
