// Growing selections: note, beam, beat, bar, line, part, tune.
import type { ScoreStage } from '../arrangement/types.ts';
import type { toNumber } from '../score/fraction.ts';
import type { Bar, Voice } from '../score/types.ts';
import type { Offset, Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { beatsInto } from './shared/beats.ts';
import { bareSpan, itemAt, itemsOf, lineAt, type PlacedItem } from './shared/locate.ts';
import { scoreNoteAt } from './shared/notes.ts';
import { endOfMusic, outlineOf, type SymbolNode } from './symbols.ts';

/** The question is an offset; the answer runs from the smallest span to the largest, each holding the one before. */
export const selection: Feature<'score', Offset, readonly Span[]> = {
  needs: 'score',
  answer(stage, at) {
    const line = lineAt(stage.tree.lines, at);
    const whole = { from: 0, to: endOfMusic(stage.tree) };
    if (line === null) return [whole];
    const item = line.line.kind === 'music' ? itemAt(line, at) : null;
    const inMusic = item === null ? [] : [{ from: item.from, to: item.to }, ...musicSpans(stage, itemsOf(line), at)];
    return growing([...inMusic, bareSpan(line), ...sectionSpans(outlineOf(stage.tree).children, at), whole]);
  },
};

/** Keeps the spans that grow; what does not hold the one before is left out. */
function growing(spans: readonly Span[]): readonly Span[] {
  const kept: Span[] = [];
  for (const span of spans) {
    const before = kept.at(-1);
    const grows =
      before === undefined || (span.from <= before.from && before.to <= span.to && span.to - span.from > before.to - before.from);
    if (grows) kept.push({ from: span.from, to: span.to });
  }
  return kept;
}

function musicSpans(stage: ScoreStage, items: readonly PlacedItem[], at: Offset): readonly Span[] {
  const found = scoreNoteAt(stage.score, at);
  if (found === null) return [beamSpan(items, at)];
  const bar = found.voice.bars[found.note.bar];
  if (bar === undefined) return [beamSpan(items, at)];
  const beat = beatSpan(found.voice, bar, at);
  return [beamSpan(items, at), ...(beat === null ? [] : [beat]), { from: bar.from, to: bar.to }];
}

/** Items without white space or bar line between them. */
function beamSpan(items: readonly PlacedItem[], at: Offset): Span {
  const ends = items.filter(
    ({ item }) =>
      item.kind === 'space' || item.kind === 'bar' || item.kind === 'line-end' || item.kind === 'comment' || item.kind === 'continuation',
  );
  const from = ends.findLast((end) => end.to <= at)?.to ?? items[0]?.from ?? at;
  const to = ends.find((end) => end.from >= at)?.from ?? items.at(-1)?.to ?? at;
  return { from, to };
}

/** The notes of the bar that begin on the same beat. */
function beatSpan(voice: Voice, bar: Bar, at: Offset): Span | null {
  const inBar = voice.notes.filter((note) => note.bar === bar.index);
  const beatFor = (onset: Parameters<typeof toNumber>[0]): number => Math.floor((beatsInto(bar, onset, bar.index === 0) ?? 0) + 1e-9);
  const here = inBar.find((note) => note.from <= at && at < note.to) ?? inBar.findLast((note) => note.from <= at && at <= note.to);
  if (here === undefined) return null;
  const same = inBar.filter((note) => beatFor(note.onset) === beatFor(here.onset));
  return { from: Math.min(...same.map((note) => note.from)), to: Math.max(...same.map((note) => note.to)) };
}

/** From the innermost section at the offset to the outermost. */
function sectionSpans(nodes: readonly SymbolNode[], at: Offset): readonly Span[] {
  const found = nodes.find((node) => node.from <= at && at < node.to);
  return found === undefined ? [] : [...sectionSpans(found.children, at), found];
}
