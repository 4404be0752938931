// The editor and the command line find the same: code, place, severity and words, in the demo and in the corpora.
import { afterEach, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver-protocol';
import { check } from '../../../server/src/cli/commands/check.ts';
import { corporaHere, corpusFiles } from '../../support/corpora.ts';
import { memoryIo } from '../../support/memory-io.ts';
import { demoBooks } from '../../support/merging.ts';
import { seeded } from '../../support/random.ts';
import { slippedTexts } from '../../support/slips.ts';
import { type Session, startSession } from './support/session.ts';

const levels = { error: 1, warning: 2, info: 3 } as const;

/** What the command line finds, a line a finding, by file. */
async function byCommand(texts: Readonly<Record<string, string>>): Promise<ReadonlyMap<string, readonly string[]>> {
  const io = memoryIo(texts);
  await check.run([...Object.keys(texts), '--format', 'json'], io);
  const found = new Map<string, string[]>(Object.keys(texts).map((file) => [file, []]));
  for (const line of io.said.out.split('\n').filter((each) => each !== '')) {
    const { file, code, line: row, column, severity, message } = JSON.parse(line);
    found.get(file)!.push(`${row}:${column} ${levels[severity as keyof typeof levels]} ${code} ${message}`);
  }
  return found;
}

const inEditor = (all: readonly Diagnostic[]): readonly string[] =>
  all.map(({ range, severity, code, message }) => `${range.start.line + 1}:${range.start.character + 1} ${severity} ${code} ${message}`);

let session: Session;
afterEach(() => session.end());

/** Opens every file beside the others and waits for the editor to say what the command says; at the end all must still stand so. */
async function compare(files: readonly { readonly text: string }[]): Promise<number> {
  const texts = Object.fromEntries(files.map(({ text }, i) => [`${i}.abc`, text.replace(/^\uFEFF/, '')]));
  const wanted = await byCommand(texts);
  session = await startSession();
  const uriOf = (name: string): string => `test:///book/${name}`;
  for (const [name, text] of Object.entries(texts)) {
    const uri = uriOf(name);
    await session.open(uri, text);
    // The lens over each tune rests on its fingering: with it the search is done.
    await session.client.sendRequest('textDocument/codeLens', { textDocument: { uri } });
    await session.findings(uri, (all) => all.length >= wanted.get(name)!.length);
  }
  for (const name of Object.keys(texts)) {
    const last = session.diagnostics.findLast((told) => told.uri === uriOf(name))!;
    expect([name, inEditor(last.diagnostics).toSorted()]).toEqual([name, wanted.get(name)!.toSorted()]);
  }
  return [...wanted.values()].flat().length;
}

it('in the demo', async () => expect(await compare(demoBooks.map((text) => ({ text })))).toBeGreaterThan(0));
it('in the demo after slips', async () => {
  const texts = slippedTexts(28, seeded(2));
  expect(await compare(texts.map((text) => ({ text })))).toBeGreaterThan(28);
});
it.skipIf(!corporaHere)('in the corpora', async () => expect(await compare(corpusFiles())).toBeGreaterThan(20));
