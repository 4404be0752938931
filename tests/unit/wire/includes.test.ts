// Included files of open documents: they come later than the document, which is then read anew; they lie in its folder or below.
import { expect, it } from 'vitest';
import { makeDocuments } from '../../../server/src/wire/documents.ts';
import { makeIncludes } from '../../../server/src/wire/includes.ts';

const uri = 'file:///tunes/a.abc';
const including = (name: string): string => `I:abc-include ${name}\nX:1\nT:t\nK:C\nTC\n`;

/** Documents beside these files; `settled` waits until all that was asked for has come. */
function desk(files: Map<string, string>) {
  const asked: string[] = [];
  const includes = makeIncludes(
    {
      readOnce: async (file) => {
        asked.push(file);
        return files.get(file) ?? null;
      },
    },
    (document) => void documents.again(document),
  );
  const documents = makeDocuments(includes.of);
  const errors = () => documents.get(uri)!.book.header.lines.flatMap(({ line }) => line.errors.map(({ code }) => code));
  const settled = () => new Promise<void>((done) => setTimeout(done));
  return { documents, includes, asked, errors, settled };
}

it('are read when they have come, asked for once, and read again when they change', async () => {
  const files = new Map([
    ['file:///tunes/sub/my%20signs.abh', 'I:abc-include two.abh\n'],
    ['file:///tunes/two.abh', 'U:T=!slide!\n'],
  ]);
  const { documents, includes, asked, errors, settled } = desk(files);
  documents.open(uri, 1, including('sub/my signs.abh'));
  expect(errors()).toEqual(['text.include-failed']);
  await settled();
  expect(errors()).toEqual([]);
  const end = { line: 4, character: 2 };
  documents.change(uri, 2, [{ range: { start: end, end }, text: 'D' }]);
  await settled();
  expect(asked).toEqual([...files.keys()]);
  const meaning = () => JSON.stringify(documents.get(uri)!.book.tunes[0]!.tree.lines[3]!.line);
  expect(meaning()).toContain('slide');
  files.set('file:///tunes/two.abh', 'U:T=!turn!\n');
  includes.changed('file:///tunes/two.abh');
  await settled();
  expect(meaning()).toContain('turn');
});

it.each(['../secret.abh', '/secret.abh', 'sub/../../secret.abh', '..\\secret.abh'])('%s is never asked for', async (name) => {
  const { documents, asked, errors, settled } = desk(new Map());
  documents.open(uri, 1, including(name));
  await settled();
  expect([asked, errors()]).toEqual([[], ['text.include-failed']]);
});

it('of an unsaved document are not looked for', async () => {
  const { documents, asked, settled } = desk(new Map());
  documents.open('untitled:Untitled-1', 1, including('two.abh'));
  await settled();
  expect(asked).toEqual([]);
});
