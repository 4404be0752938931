// What a click on the sheet means, and where the arrow keys lead.
import { describe, expect, it } from 'vitest';
import { stepTo } from '../../../client/webview/spoken.ts';
import { hit, type Target, targetsOf } from '../../../client/webview/sync/targets.ts';
import { drawSystem } from '../../../server/src/drawing/index.ts';
import type { SheetSystem } from '../../../server/src/engraving/index.ts';
import { drawText, systemsOf } from '../../support/page/drawing.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const tune = 'X:1\r\nM:4/4\r\nL:1/4\r\nK:G clef=bass\r\n!1!A,{B,}C [G,D]2-|[G,D]4|\r\n';
const first: SheetSystem = systemsOf(drawText(tune))[0]!;
const scene = sceneOf(tune, 0);
const shapes = drawSystem(first.system, scene.plans!, { density: 'all', bassVoices: scene.bassVoices });
const targets = targetsOf(first.system, shapes);

const textOf = (target: Target | null) => (target === null ? null : tune.slice(target.from, target.to));
const headOf = (text: string) => {
  const note = first.system.notes.find((each) => tune.slice(each.match!.note.from, each.match!.note.to).startsWith(text))!;
  return note.heads;
};

describe('targets', () => {
  it('finds note, grace and chord member under the pointer, after CRLF', () => {
    for (const text of ['A,', 'C']) expect(textOf(hit(targets, headOf(text)[0]!.x, headOf(text)[0]!.y, 5))).toBe(text);
    expect(textOf(hit(targets, headOf('B,')[0]!.x, headOf('B,')[0]!.y, 5))).toBe('B,');
    const [low, high] = headOf('[G,D]2');
    expect(textOf(hit(targets, low!.x, low!.y, 5))).toBe('G,');
    expect(textOf(hit(targets, high!.x, high!.y, 5))).toBe('D');
  });

  it('finds the head of a stop and the note of a finger', () => {
    const stops = shapes.filter((shape) => shape.role === 'tab-stop');
    expect(stops.map((shape) => tune.slice(shape.source!.from, shape.source!.to))).toEqual(['A,', 'B,', 'C', 'G,', 'D']);
    const stop = stops[0]!;
    expect(stop.kind === 'text' && textOf(hit(targets, stop.x, stop.y - 4, 5))).toBe('A,');
  });

  it('finds bars, and nothing on empty paper', () => {
    const bar = first.system.bars[0]!;
    expect(textOf(hit(targets, bar.x, first.system.staffs[0]!.top + 2, 5))).toBe('|');
    expect(hit(targets, -100, -100, 5)).toBeNull();
  });
});

describe('walking', () => {
  const systems = [0, 0, 0, 1, 1, 2];
  it('goes note by note and system by system, and stops at the ends', () => {
    expect([stepTo('next', 0, systems), stepTo('next', 5, systems), stepTo('before', 0, systems)]).toEqual([1, 5, 0]);
    expect([stepTo('next-system', 1, systems), stepTo('next-system', 5, systems)]).toEqual([3, 5]);
    expect([stepTo('system-before', 5, systems), stepTo('system-before', 1, systems)]).toEqual([3, 0]);
    expect([stepTo('first', 4, systems), stepTo('last', 1, systems)]).toEqual([0, 5]);
  });
});
