// Transposes the tune at the caret by as many semitones as the player says.
import { window } from 'vscode';
import type { CommandTools } from './index.ts';
import { grant, tuneEditor } from './wish.ts';

/** Farther than two octaves leaves every instrument. */
const farthest = 24;

export async function transpose(tools: CommandTools): Promise<void> {
  const editor = tuneEditor();
  if (!editor) return;
  const answer = await window.showInputBox({
    title: 'Transpose the Tune',
    prompt: 'Semitones up, or down with a minus: 2 is a tone up, -5 a fourth down. Pins stay where they are still possible.',
    value: '5',
    validateInput: (text) => (semitonesIn(text) === null ? `Write a whole number from -${farthest} to ${farthest}, but not 0.` : null),
  });
  const semitones = answer === undefined ? null : semitonesIn(answer);
  if (semitones !== null) await grant(tools, editor, { kind: 'transpose', semitones });
}

function semitonesIn(text: string): number | null {
  const number = /^\s*[+-]?\d{1,2}\s*$/.test(text) ? Number(text) : 0;
  return number !== 0 && Math.abs(number) <= farthest ? number : null;
}
