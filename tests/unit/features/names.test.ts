// Names in a book: definition, references, renaming; links.
import { describe, expect, it } from 'vitest';
import { links } from '../../../server/src/features/links.ts';
import { definition, references } from '../../../server/src/features/references.ts';
import { rename } from '../../../server/src/features/rename.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { ask, withCaret } from './support.ts';

/** How many places the name at the caret has, and the line of its definition. */
function check(marked: string, places: number, defined: string): void {
  const { text, at } = withCaret(marked);
  expect(ask(references, text, at)).toHaveLength(places);
  const place = ask(definition, text, at)[0]!;
  const start = text.lastIndexOf('\n', place.from) + 1;
  expect(text.slice(start).split('\n')[0]).toBe(defined);
}

/** The text after renaming in a book of one tune, or why it is refused. */
function checkRename(marked: string, name: string, wanted: string | RegExp): void {
  const { text, at } = withCaret(marked);
  const renaming = ask(rename, text, { at, name });
  if (renaming.kind === 'refused') expect(renaming.message).toMatch(wanted);
  else expect(applyEdits(text, renaming.byTune[0]!.edits)).toBe(wanted);
}

describe('definition and references', () => {
  it('lead from the order of parts to the part', () => check('X:1\nP:A$0BA\nK:D\nP:A\nD|\nP:B\nE|\n', 3, 'P:A'));
  it('lead from a voice among the notes to its line in the header', () =>
    check('X:1\nV:1\nV:low clef=bass\nK:D\n[V:1]D|\n[V:l$0ow]D,|\n', 2, 'V:low clef=bass'));
  it('lead from a sign of your own to its U: field', () => check('X:1\nU:W=!slide!\nK:D\n$0WD E WF|\n', 3, 'U:W=!slide!'));
});

describe('rename', () => {
  it('renames a voice everywhere', () =>
    checkRename('X:1\nV:a$0 clef=bass\nK:D\n[V:a]D,|\nV:a\nE,|\n', 'low', 'X:1\nV:low clef=bass\nK:D\n[V:low]D,|\nV:low\nE,|\n'));
  it('renames a part in its order too', () =>
    checkRename('X:1\nP:(A$0B)2A\nK:D\nP:A\nD|\nP:B\nE|\n', 'C', 'X:1\nP:(CB)2C\nK:D\nP:C\nD|\nP:B\nE|\n'));
  it('renames a sign of your own', () => checkRename('X:1\nU:W$0=!slide!\nK:D\nWD E|\n', 'S', 'X:1\nU:S=!slide!\nK:D\nSD E|\n'));
  it('refuses a name that is taken or is none', () => {
    checkRename('X:1\nK:D\nP:A$0\nD|\nP:B\nE|\n', 'B', /already a part B/);
    checkRename('X:1\nK:D\nP:A$0\nD|\n', 'first', /one letter/);
    checkRename('X:1\nK:D\n$0D|\n', 'x', /Only voices/);
  });
});

describe('rename of a slug', () => {
  it('reaches the other versions in the book', () => {
    const { text, at } = withCaret(
      'X:1\nI:bullfiddle tune=ol$0d version=source\nK:D\nD|\n\nX:2\nI:bullfiddle tune=old version=low\nK:D clef=bass\nD,|\n',
    );
    const renaming = ask(rename, text, { at, name: 'new' });
    expect(renaming).toMatchObject({ kind: 'edits', byTune: [{ tune: 0 }, { tune: 1 }] });
  });
});

describe('links', () => {
  it('find addresses and included files', () => {
    const text = 'X:1\nF:https://example.org/tunes/1.abc.\nI:abc-include common.abh\nK:D\nD|\n';
    expect(ask(links, text, null).map((link) => [link.kind, link.target, text.slice(link.from, link.to)])).toEqual([
      ['address', 'https://example.org/tunes/1.abc', 'https://example.org/tunes/1.abc'],
      ['file', 'common.abh', 'common.abh'],
    ]);
  });
});
