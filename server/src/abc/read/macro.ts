// Macro calls (section 9): finding one, and the text it stands for.
import type { Offset } from '../../text/span.ts';
import { APOSTROPHE, COMMA, isNoteLetter } from '../scan/chars.ts';
import type { Macro } from './dialect.ts';

/** A longer body is not kept, so that a call cannot stand for more text than its line's length times this. */
export const LONGEST_MACRO = 200;

export interface MacroCall {
  readonly to: Offset;
  /** The text that the call stands for. */
  readonly text: string;
}

/** The call of the first macro that matches at `at`, or null. */
export function macroCallAt(macros: readonly Macro[], text: string, at: Offset, end: Offset): MacroCall | null {
  for (const macro of macros) {
    const call = macro.noteAt < 0 ? staticCall(macro, text, at) : transposingCall(macro, text, at, end);
    if (call && call.to <= end) return call;
  }
  return null;
}

function staticCall({ call, body }: Macro, text: string, at: Offset): MacroCall | null {
  return text.startsWith(call, at) ? { to: at + call.length, text: body } : null;
}

function transposingCall({ call, body, noteAt }: Macro, text: string, at: Offset, end: Offset): MacroCall | null {
  if (!text.startsWith(call.slice(0, noteAt), at)) return null;
  const letterAt = at + noteAt;
  const letter = text.charCodeAt(letterAt);
  if (!isNoteLetter(letter)) return null;
  let here = letterAt + 1;
  let octave = letter >= 97 ? 1 : 0;
  for (; here < end; here++) {
    const mark = text.charCodeAt(here);
    if (mark === APOSTROPHE) octave++;
    else if (mark === COMMA) octave--;
    else break;
  }
  const tail = call.slice(noteAt + 1);
  if (!text.startsWith(tail, here)) return null;
  return { to: here + tail.length, text: transposed(body, stepOf(letter) + 7 * octave) };
}

/** Steps above C of a note letter's code, either case. */
const stepOf = (letter: number): number => ((letter & 31) - 3 + 7) % 7;

/** The body with each letter h to z written as the note that many steps from n as the letter is, n itself being `step`. */
function transposed(body: string, step: number): string {
  return body.replace(/[h-z]/g, (letter) => noteText(step + letter.charCodeAt(0) - 'n'.charCodeAt(0)));
}

function noteText(step: number): string {
  const letter = 'CDEFGAB'[((step % 7) + 7) % 7]!;
  const octave = Math.floor(step / 7);
  return octave > 0 ? letter.toLowerCase() + "'".repeat(octave - 1) : letter + ','.repeat(-octave);
}
