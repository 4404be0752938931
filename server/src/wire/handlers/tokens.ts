// Semantic tokens of the whole document, from the tree.
import { SemanticTokensBuilder } from 'vscode-languageserver';
import { defaultFeatureSettings, features, tokenTypes } from '../../features/index.ts';
import { rangeOf } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { Desktop } from './index.ts';
import { tunesOf, viewOf } from './stages.ts';

/** The types, in the editor's own words where it has one: themes then colour them. */
const editorTypes: Readonly<Record<(typeof tokenTypes)[number], string>> = {
  comment: 'comment',
  field: 'keyword',
  note: 'variable',
  rest: 'operator',
  bar: 'operator',
  decoration: 'decorator',
  pin: 'enumMember',
  text: 'string',
  slur: 'operator',
  number: 'number',
};

export const tokenLegend = { tokenTypes: tokenTypes.map((type) => editorTypes[type]), tokenModifiers: [] };

export function tokens({ connection, guard, documents }: Desktop): void {
  connection.languages.semanticTokens.on(({ textDocument }, token) =>
    guard.answer('tokens', { data: [] }, token, () => {
      const document = documents.get(textDocument.uri);
      return document ? dataOf(document) : { data: [] };
    }),
  );
}

function dataOf(document: OpenDocument) {
  const builder = new SemanticTokensBuilder();
  for (const tune of [-1, ...tunesOf(document)]) {
    for (const one of features.tokens.answer(viewOf(document, tune), null, defaultFeatureSettings)) {
      const { start } = rangeOf(document, tune, one);
      builder.push(start.line, start.character, one.to - one.from, tokenTypes.indexOf(one.type), 0);
    }
  }
  return builder.build();
}
