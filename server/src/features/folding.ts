// What can be folded away: a tune, its header, its parts and voices, runs of lyrics, comments, typeset text.
import type { Line, PlacedLine, TuneTree } from '../abc/tree/tree.ts';
import type { Span } from '../text/span.ts';
import type { Feature, TextView } from './feature.ts';
import { bareSpan } from './shared/locate.ts';
import { endOfMusic, outlineOf, type SymbolNode } from './symbols.ts';

export interface Fold extends Span {
  readonly kind: 'tune' | 'header' | 'section' | 'lyrics' | 'comment' | 'typeset';
}

/** There is one question: the whole tune, or the file's header. */
export const folding: Feature<'text', null, readonly Fold[]> = {
  needs: 'text',
  answer(view) {
    const folds = [...runs(view.tree.lines, runKind), ...(view.tree.kind === 'tune' ? tuneFolds(view.tree, view) : [])];
    return folds.filter((fold) => /[\r\n]/.test(view.text.slice(fold.from, fold.to))).sort((a, b) => a.from - b.from || b.to - a.to);
  },
};

function runKind(line: Line): Fold['kind'] | null {
  if (line.kind === 'lyrics') return 'lyrics';
  if (line.kind === 'comment') return 'comment';
  return line.kind === 'typeset' ? 'typeset' : null;
}

/** Runs of lines of one kind. */
function runs(lines: readonly PlacedLine[], kindOf: (line: Line) => Fold['kind'] | null): readonly Fold[] {
  const folds: Fold[] = [];
  for (const placed of lines) {
    const kind = kindOf(placed.line);
    const before = folds.at(-1);
    const { from, to } = bareSpan(placed);
    if (kind === null) continue;
    if (before?.kind === kind && placed.at - before.to <= 2) folds[folds.length - 1] = { kind, from: before.from, to };
    else folds.push({ kind, from, to });
  }
  return folds;
}

function tuneFolds(tree: TuneTree, view: TextView): readonly Fold[] {
  const header = tree.lines[tree.bodyStart - 1];
  const whole: readonly Fold[] = [{ kind: 'tune', from: 0, to: endOfMusic(tree) }];
  const head: readonly Fold[] = header === undefined ? [] : [{ kind: 'header', from: 0, to: bareSpan(header).to }];
  return [...whole, ...head, ...outlineOf(tree).children.flatMap((node) => sectionFolds(node, view.text))];
}

function sectionFolds(node: SymbolNode, text: string): readonly Fold[] {
  const to = node.from + text.slice(node.from, node.to).trimEnd().length;
  return [{ kind: 'section', from: node.from, to }, ...node.children.flatMap((child) => sectionFolds(child, text))];
}
