// Tunes of all open folders by title, key, kind, composer or version.
import { SymbolKind } from 'vscode-languageserver';
import type { TuneHeader } from '../../features/index.ts';
import type { Desktop } from './index.ts';

export function workspaceSymbols({ connection, guard, index }: Desktop): void {
  connection.onWorkspaceSymbol(({ query }, token) =>
    guard.answer('workspace symbols', [], token, async () => {
      const found = await index.search(query, () => token.isCancellationRequested);
      return found.map(({ uri, header, start, end }) => ({
        name: header.title || `Tune ${header.number || 'without a title'}`,
        kind: SymbolKind.Class,
        containerName: wordsOf(header),
        location: { uri, range: { start, end } },
      }));
    }),
  );
}

const wordsOf = ({ version, rhythm, key, composer }: TuneHeader): string =>
  [version, rhythm, key, composer].filter((word) => word !== '').join(', ');
