// The pages on the checks: each code has one, its first example is found as marked, its second is not, and its fixes do what they say.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, scoreStage } from '../../../server/src/arrangement/index.ts';
import { checks } from '../../../server/src/checks/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { findingsIn, marked, unmarked } from '../../support/check.ts';

const folder = join(import.meta.dirname, '../../../server/docs/checks');
const codes = checks.flatMap((check) => check.codes).map((code) => code.replace(/\.\*$/, ''));
const pages = readdirSync(folder).map((name) => name.replace(/\.md$/, ''));
const examplesOf = (code: string): readonly string[] =>
  [...readFileSync(join(folder, `${code}.md`), 'utf8').matchAll(/```abc\n([\s\S]*?)\n```/g)].map((match) => match[1]!);

it('every code has a page, and every page a code', () => expect(pages.toSorted()).toEqual(codes.toSorted()));
it('no code is given by two checks', () => expect(new Set(codes).size).toBe(codes.length));

/** What sounds, without lengths: fixes that touch pins, slurs, slides, ties and signs leave it alone. */
const pitches = (text: string): readonly string[] =>
  readBook(text).tunes.flatMap((_, i) =>
    scoreStage(readBook(text), i).score.voices.flatMap((voice) =>
      voice.notes.filter(({ kind }) => kind === 'note').map((note) => note.heads.map((head) => head.midi).join('+')),
    ),
  );

const shown = codes.filter((code) => code !== 'text');
describe.each(shown)('%s', (code) => {
  const [triggers, neighbour] = examplesOf(code) as [string, string];

  it('is found in its example, once, where it is marked', () => {
    expect(findingsIn(unmarked(triggers)).map((found) => found.code)).toEqual([code]);
    expect(marked(triggers)).toBe(triggers);
  });
  it('is not found in its neighbour, nor is anything else', () => expect(marked(neighbour)).toBe(unmarked(neighbour)));

  const text = unmarked(triggers);
  const fixes = findingsIn(text).flatMap((found) => found.fixes);
  it.each(fixes.map((fix) => [fix.title, fix] as const))('is mended by "%s", which brings nothing new', (_, fix) => {
    const mended = applyEdits(text, fix.edits);
    expect(findingsIn(mended).map((found) => found.code)).toEqual([]);
    const [before, after] = [pitches(text), pitches(mended)];
    const changed = before.filter((pitch, i) => pitch !== after[i]).length;
    expect(after).toHaveLength(before.length);
    expect(changed).toBe(code === 'range.too-low' || code === 'range.too-high' ? 1 : 0);
  });
});

it('says nothing of a note about hands that the settings do not ask about', () => {
  const silent = { ...defaultConfig, severities: new Map([['reach', 'off' as const]]) };
  expect(findingsIn(unmarked(examplesOf('reach.too-wide')[0]!), silent)).toEqual([]);
});
it('takes the severity of a code before that of its family', () => {
  const set = { ...defaultConfig, severities: new Map([['reach', 'off'] as const, ['reach.too-wide', 'info'] as const]) };
  expect(findingsIn(unmarked(examplesOf('reach.too-wide')[0]!), set).map((found) => found.severity)).toEqual(['info']);
});
it.each(shown)('%s is silenced by allow=', (code) => {
  const text = unmarked(examplesOf(code)[0]!).replaceAll('\nT:', `\nI:bullfiddle allow=${code}\nT:`);
  const moved = text.replace(/(X:\d+)\n(I:bullfiddle allow=.*)\n(T:.*)/g, '$1\n$3\n$2');
  expect(findingsIn(moved).map((found) => found.code)).toEqual([]);
});
