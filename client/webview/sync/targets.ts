// What can be hit on a system: heads, stops, fingers, bars, findings, with their places in the text.
import type { Shape } from '../../../server/src/drawing/index.ts';
import type { EngravedSystem } from '../../../server/src/engraving/index.ts';

export interface Target {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly from: number;
  readonly to: number;
  /** The note and head meant; null for a bar. */
  readonly note: number | null;
  readonly head: number;
}

function headTargets(system: EngravedSystem): Target[] {
  return system.notes.flatMap(({ heads, match, kind }) => {
    if (match === null) return [];
    const half = kind === 'grace' ? 4 : 6;
    return heads.map((head, i): Target => {
      const index = match.heads[i]!;
      const { from, to } = match.note.heads[index]!;
      return { x1: head.x - half, x2: head.x + half, y1: head.y - half, y2: head.y + half, from, to, note: match.note.id, head: index };
    });
  });
}

function barTargets(system: EngravedSystem): Target[] {
  return system.bars.flatMap(({ x, staff, source }) => {
    if (source === null) return [];
    const { top, bottom } = system.staffs[staff]!;
    return [{ x1: x - 4, x2: x + 6, y1: top, y2: bottom, ...source, note: null, head: 0 }];
  });
}

/** A text's box is about its middle; anything else with a place in the text is a thin line, reached through its note. */
function shapeTargets(system: EngravedSystem, shapes: readonly Shape[]): Target[] {
  const spans = new Map(system.notes.flatMap(({ match }) => (match === null ? [] : [[match.note.id, match.note] as const])));
  return shapes.flatMap((shape): Target[] => {
    if (shape.kind !== 'text' || shape.source === null || shape.note === null) return [];
    const half = Math.max(5, (shape.text.length * shape.size) / 4);
    const heads = spans.get(shape.note)?.heads ?? [];
    const head = Math.max(
      0,
      heads.findIndex((each) => each.from === shape.source!.from),
    );
    const { from, to } = shape.source;
    return [{ x1: shape.x - half, x2: shape.x + half, y1: shape.y - shape.size, y2: shape.y + 2, from, to, note: shape.note, head }];
  });
}

export const targetsOf = (system: EngravedSystem, shapes: readonly Shape[]): Target[] => [
  ...headTargets(system),
  ...shapeTargets(system, shapes),
  ...barTargets(system),
];

const outside = (value: number, from: number, to: number): number => Math.max(from - value, 0, value - to);

/** The target nearest to a point, no further than `reach` units from its box; among those the one whose middle is nearest. */
export function hit(targets: readonly Target[], x: number, y: number, reach: number): Target | null {
  let best: Target | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const target of targets) {
    const away = Math.hypot(outside(x, target.x1, target.x2), outside(y, target.y1, target.y2));
    if (away > reach) continue;
    const score = away * 100 + Math.hypot(x - (target.x1 + target.x2) / 2, y - (target.y1 + target.y2) / 2);
    if (score < least) {
      least = score;
      best = target;
    }
  }
  return best;
}
