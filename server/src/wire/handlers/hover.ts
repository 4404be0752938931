// Hover: what stands at the pointer, as far as it is known; the place joins in if its search is done in time.
import { MarkupKind } from 'vscode-languageserver';
import { boardHeight, boardOf, boardWidth, drawBoard } from '../../drawing/index.ts';
import { defaultFeatureSettings, features, type Hover } from '../../features/index.ts';
import { placeOf, rangeOf } from '../convert.ts';
import { pictureAddress } from '../picture.ts';
import type { Desktop } from './index.ts';
import { partOf, planOf, viewOf } from './stages.ts';

/** The pitch is shown without the place if the fingering takes longer (ms). */
const patience = 300;

/** Width of the fingerboard's picture, in the editor's pixels. */
const hoverWidth = 420;

export function hover(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onHover(({ textDocument, position }, token) =>
    guard.answer('hover', null, token, async () => {
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const { tune, offset } = placeOf(document, position);
      const found: (Hover | null)[] = [features.textHover.answer(viewOf(document, tune), offset, defaultFeatureSettings)];
      if (tune >= 0) {
        found.push(features.pitchHover.answer(partOf(desktop, document, tune), offset, defaultFeatureSettings));
        const plan = found[1] === null ? null : await atMost(patience, planOf(desktop, document, tune));
        if (plan !== null) found.push(features.placeHover.answer(plan, offset, defaultFeatureSettings));
      }
      const hovers = found.filter((one) => one !== null);
      const [first] = hovers;
      if (first === undefined) return null;
      const value = [...hovers.flatMap((one) => one.text), ...hovers.flatMap(pictureOf)].join('\n\n');
      return { contents: { kind: MarkupKind.Markdown, value }, range: rangeOf(document, tune, first) };
    }),
  );
}

/** The fingerboard with the hand on it, as a picture; none where nothing is played. */
function pictureOf({ played }: Hover): readonly string[] {
  if (played === undefined || played.note.places.length === 0) return [];
  const board = boardOf(played.plan);
  const size = { width: boardWidth(board), height: boardHeight(board) };
  return [`![fingerboard](${pictureAddress(drawBoard(board, played.note), size, hoverWidth)})`];
}

/** The answer, or null after `ms` milliseconds. */
function atMost<T>(ms: number, answer: Promise<T | null>): Promise<T | null> {
  return Promise.race([answer, new Promise<null>((resolve) => setTimeout(() => resolve(null), ms))]);
}
