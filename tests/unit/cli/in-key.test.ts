// A tune in another key for a page: the notes all move by the same way, pins go along or are told.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig } from '../../../server/src/arrangement/index.ts';
import { inKey } from '../../../server/src/cli/in-key.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';

const tables = makeTables(4 * 1024 * 1024);

function into(key: string, body: string, from = 'G') {
  const text = `X:1\nT:Road\nM:4/4\nL:1/4\nQ:1/4=80\nK:${from} clef=bass\n${body}\n`;
  const source = { name: 'road.abc', path: 'road.abc', text, include: () => null };
  const made = inKey({ source, book: readBook(text), config: defaultConfig }, 0, key, tables);
  if ('problem' in made) return { problem: made.problem, written: [], told: [], key: '' };
  const { score } = made.stage;
  const written = score.voices[0]!.notes.map((note) => note.heads[0]!.written);
  return { problem: null, written, told: made.told, key: score.keyText };
}

describe('inKey', () => {
  it('moves all notes the shorter way', () => {
    const [here, up, down] = [into('G', 'G,A,B,C|'), into('A', 'G,A,B,C|'), into('F', 'G,A,B,C|')];
    expect(up.written).toEqual(here.written.map((n) => n + 2));
    expect(down.written).toEqual(here.written.map((n) => n - 2));
    expect(up.key).toMatch(/^A\b/);
  });

  it('goes the other way where the shorter one leaves the strings', () => {
    // E,, is the lowest string of the bass (E1, written an octave higher): nothing lies below it.
    const [here, moved] = [into('E', 'E,,F,,G,,A,,|', 'E'), into('D', 'E,,F,,G,,A,,|', 'E')];
    expect(moved.written).toEqual(here.written.map((n) => n + 10));
  });

  it('leaves a tune that stands in the key, and keeps the pins that can go along', () => {
    expect(into('G', '!1!A,B,|').told).toEqual([]);
    expect(into('A', '!1!A,B,|').told).toEqual([]);
    expect(into('A', '!0!G,B,|').told).toHaveLength(1);
  });

  it('says why it cannot', () => {
    expect(into('Am', 'G,4|').problem).toContain('of another mode');
    expect(into('X', 'G,4|').problem).toContain('is no key');
    expect(into('D', 'G,4|', 'none').problem).toContain('has no key (K:)');
  });
});
