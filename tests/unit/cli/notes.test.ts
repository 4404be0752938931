// `bullfiddle notes`: the JSON that scripts rely on.
import { describe, expect, it } from 'vitest';
import { notes } from '../../../server/src/cli/commands/notes.ts';
import { memoryIo } from '../../support/memory-io.ts';

interface Line {
  readonly file: string;
  readonly number: number | null;
  readonly title: string;
  readonly key: string;
  readonly meter: string;
  readonly voices: readonly { readonly id: string; readonly clef: string; readonly notes: readonly Record<string, unknown>[] }[];
  readonly errors: readonly { readonly code: string; readonly from: number; readonly to: number }[];
}

async function linesOf(text: string, ...options: string[]): Promise<readonly Line[]> {
  const io = memoryIo({ 'a.abc': text });
  expect(await notes.run(['a.abc', ...options], io)).toBe(0);
  return io.said.out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
}

const TEXT = "X:7\nT:Caf\\'e\nM:C|\nL:1/8\nK:Am bass-8\n|:{g}A4-|A2[C-E]2 C4:|\n";

describe('notes', () => {
  it('prints a tune a line, ties merged, places in the file', async () => {
    const [line] = await linesOf(`% first\n\n${TEXT}`);
    expect({ ...line, voices: null }).toEqual({
      file: 'a.abc',
      number: 7,
      title: 'Café',
      key: 'Am bass-8',
      meter: 'C|',
      voices: null,
      errors: [],
    });
    const at = 9 + TEXT.indexOf('A4');
    expect(line!.voices[0]).toEqual({
      id: '1',
      clef: 'bass-8',
      notes: [
        { from: at - 2, to: at - 1, onset: '0', duration: '0', midi: [67], tied: false, grace: true },
        { from: at, to: at + 6, onset: '0', duration: '3/4', midi: [57], tied: true, grace: false },
        { from: at + 6, to: at + 15, onset: '3/4', duration: '3/4', midi: [48], tied: true, grace: false },
        { from: at + 6, to: at + 12, onset: '3/4', duration: '1/4', midi: [52], tied: false, grace: false },
      ],
    });
  });

  it('plays repeats out with --played', async () => {
    const [line] = await linesOf(TEXT, '--played');
    expect(line!.voices[0]!.notes.filter(({ grace }) => grace === false).map(({ onset, midi }) => `${onset} ${midi}`)).toEqual([
      '0 57',
      '3/4 48',
      '3/4 52',
      '3/2 57',
      '9/4 48',
      '9/4 52',
    ]);
  });

  it('places errors in the file', async () => {
    const text = 'X:1\nT:t\nK:C\nC\n\nX:2\nT:t\nK:C\nC#\n';
    const lines = await linesOf(text);
    expect(lines.flatMap(({ errors }) => errors.map(({ code, from, to }) => `${code} ${text.slice(from, to)}`))).toEqual([
      'text.reserved-sign #',
    ]);
  });
});
