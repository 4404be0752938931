// What is drawn on a system: stops on their strings, fingers by density, arcs, slides, accents, double stops, ties.
import { describe, expect, it } from 'vitest';
import { type Density, drawFindings, drawSystem, type Look, placeTabs, type Shape } from '../../../server/src/drawing/index.ts';
import { usualFigures } from '../../../server/src/drawing/measures.ts';
import { drawText, systemsOf } from '../../support/page/drawing.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const header = 'X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C clef=bass\n';

function drawn(body: string, density: Density = 'all', plans: 'plan' | 'none' = 'plan', line = 0) {
  const text = header + body;
  const scene = sceneOf(text, 0);
  const { system } = systemsOf(drawText(text))[line]!;
  const look: Look = { density, bassVoices: scene.bassVoices };
  const given = plans === 'plan' ? scene.plans! : [];
  return { system, scene, look, given, shapes: drawSystem(system, given, look), tabs: placeTabs(system, given, look) };
}

const texts = (shapes: readonly Shape[], role: Shape['role']) =>
  shapes.flatMap((shape) => (shape.kind === 'text' && shape.role === role ? [shape.text] : []));
const count = (shapes: readonly Shape[], role: Shape['role']) => shapes.filter((shape) => shape.role === role).length;

describe('a system', () => {
  it('puts open strings on their lines, G at the top', () => {
    const { shapes, tabs } = drawn('!0!G,!0!D,!0!A,,!0!E,,|');
    const ys = shapes.flatMap((shape) => (shape.kind === 'text' && shape.role === 'tab-stop' ? [shape.y] : []));
    expect(texts(shapes, 'tab-stop')).toEqual(['0', '0', '0', '0']);
    expect(texts(shapes, 'tab-letter')).toEqual(['G', 'D', 'A', 'E']);
    expect([...ys].sort((a, b) => a - b)).toEqual(ys);
    expect(tabs).toHaveLength(1);
  });

  it('stands a stop under its notehead and keeps tab clear of the staff', () => {
    const { shapes, system, tabs } = drawn('A,B,C{D}C|');
    const notes = system.notes.filter((note) => note.match !== null);
    const stops = shapes.flatMap((shape) => (shape.kind === 'text' && shape.role === 'tab-stop' ? [shape] : []));
    const off = stops.map((stop, i) => Math.abs(stop.x - notes[i]!.heads[0]!.x));
    expect(Math.max(...off)).toBeLessThan(0.5);
    expect(tabs[0]!.top).toBeGreaterThan(system.staffs[0]!.bottom);
  });

  it('sets two-figure stops narrower where they stand close, and leaves room for a slide', () => {
    const crowd = 'L:1/16\ngfgf gfgf gfgf gfgf|gfgf gfgf gfgf gfgf|gfgf gfgf gfgf gfgf|gfgf (g!slide!f)gf {fg}g8|{f}g16|';
    const { shapes } = drawn(crowd);
    const stops = shapes.flatMap((shape) => (shape.kind === 'text' && shape.role === 'tab-stop' ? [shape] : []));
    const halfOf = ({ text, size, stretch }: (typeof stops)[number]) => (text.length * size * stretch * usualFigures.computed) / 2;
    const row = stops.filter(({ spoken }) => spoken!.startsWith('G string')).sort((a, b) => a.x - b.x);
    const gaps = row.slice(1).map((stop, i) => stop.x - halfOf(stop) - row[i]!.x - halfOf(row[i]!));
    expect(row.length).toBeGreaterThan(50);
    expect(stops.some(({ stretch }) => stretch < 1)).toBe(true);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(1.5);
    const slides = shapes.flatMap((shape) => (shape.kind === 'line' && shape.role === 'slide' ? [shape.x2 - shape.x1] : []));
    expect(Math.min(...slides)).toBeGreaterThan(0);
  });

  it('says who decided: pinned or computed', () => {
    const { shapes } = drawn('!1!A,B,|');
    expect(shapes.filter((shape) => shape.role === 'finger').map((shape) => shape.ink)).toEqual(['pinned', 'computed']);
  });

  it('shows fingers at all notes, at changes, or only what the player wrote', () => {
    const body = '!1!A,B,A,B,|';
    const counts = (['all', 'changes', 'pins'] as const).map((density) => count(drawn(body, density).shapes, 'finger'));
    expect(counts[0]).toBe(4);
    expect(counts[1]).toBeLessThan(4);
    expect(counts[2]).toBe(1);
  });

  it('arches hammer-ons, draws slides straight on staff and tab, and accents on both', () => {
    expect(count(drawn('(A,B,)A,2|').shapes, 'hammer-arc')).toBe(1);
    const slide = drawn('(A,!slide!B,)A,2|').shapes.filter((shape) => shape.role === 'slide');
    expect(slide.map((shape) => shape.kind)).toEqual(['line', 'line']);
    expect(count(drawn('!>!A,B,A,2|').shapes, 'accent')).toBe(2);
  });

  it('keeps fingers at their notes, under dynamics that words have driven over the staff', () => {
    const sung = drawn('!<(!G,A,!<)!!f!B,C|\nw:one two three four\n');
    const highest = Math.min(...sung.system.notes.map((note) => note.heads[0]!.y));
    const fingers = sung.shapes.flatMap((shape) => (shape.kind === 'text' && shape.role === 'finger' ? [shape.y] : []));
    expect(fingers).toHaveLength(4);
    expect(sung.system.staffs[0]!.ink.peak).toBeLessThan(highest - 30);
    expect(Math.min(...fingers)).toBeGreaterThan(highest - 15);
  });

  it('draws half of a hammer-on or a slide on each side of a line’s end, with a tie between too', () => {
    const halves = (body: string) =>
      [0, 1].map((line) => drawn(body, 'all', 'plan', line).shapes.filter(({ role }) => role === 'hammer-arc' || role === 'slide'));
    const [out, inward] = halves('G,2A,(B,|\nC)B,A,2|');
    expect([out!.length, inward!.length]).toEqual([1, 1]);
    expect(halves('G,2A,(A,|\n!slide!B,)B,A,2|').map((half) => half.map(({ kind }) => kind))).toEqual([
      ['line', 'line'],
      ['line', 'line'],
    ]);
    expect(halves('G,2A,(A,-|\nA,B,)A,2|')[1]).toHaveLength(1);
    expect(halves('G,2A,A,|\nB,B,A,2|').flat()).toEqual([]);
  });

  it('arches each string of a double stop, clear of the other number', () => {
    const { shapes } = drawn('([D,A,]2[E,B,]2)|');
    const arcs = shapes.flatMap((shape) => (shape.kind === 'path' && shape.role === 'hammer-arc' ? [shape.d] : []));
    const heights = arcs.map((d) => [...d.matchAll(/[\d.]+ ([\d.]+)/g)].map(([, y]) => Number(y)));
    const stops = shapes.flatMap((shape) => (shape.kind === 'text' && shape.role === 'tab-stop' ? [shape] : []));
    expect(arcs).toHaveLength(2);
    for (const { y, size } of stops)
      for (const ys of heights) expect(Math.min(...ys) > y || Math.max(...ys) < y - 0.72 * size, `${ys} through ${y}`).toBe(true);
  });

  it('stops a slide short of an accidental', () => {
    const { shapes, system } = drawn('A,2(A,!slide!^A,)|');
    const slide = shapes.find((shape) => shape.kind === 'line' && shape.role === 'slide')!;
    const head = system.notes.at(-1)!.heads[0]!;
    expect(head.left).toBeLessThan(head.x - head.width / 2 - 5);
    expect(slide.kind === 'line' && slide.x2 < head.left).toBe(true);
  });

  it('gives a double stop two stops and a tied note none', () => {
    expect(count(drawn('[D,A,]2z2|').shapes, 'tab-stop')).toBe(2);
    expect(count(drawn('A,4-|A,4|').shapes, 'tab-stop')).toBe(1);
  });

  it('speaks each stop, an open string as such', () => {
    expect(drawn('!0!G,3 z|').shapes.find((shape) => shape.spoken !== null)!.spoken).toBe('open G string, stop 0');
    expect(drawn('!1!A,3 z|').shapes.find((shape) => shape.spoken !== null)!.spoken).toMatch(/^G string, stop 2, first finger/);
  });

  it('keeps the tab’s place while the plan is under way, and shows what the player wrote', () => {
    const waiting = drawn('!1!A,B,CD|', 'all', 'none');
    const ready = drawn('!1!A,B,CD|');
    expect(waiting.tabs).toEqual(ready.tabs);
    expect(texts(waiting.shapes, 'finger')).toEqual(['1']);
    expect(count(waiting.shapes, 'tab-stop')).toBe(0);
  });

  it('marks a finding on staff and tab', () => {
    const { system, tabs, scene } = drawn('A,B,CD|');
    const finding = {
      from: 0,
      to: 1,
      code: 'reach.too-wide',
      severity: 'error',
      message: 'Too wide.',
      notes: [scene.notes[1]!.id, scene.notes[2]!.id],
      rests: 'plan',
    } as const;
    const bands = drawFindings(system, [finding], [tabs[0]!]);
    expect(bands.map((band) => [band.severity, band.spoken])).toEqual([
      ['error', 'Too wide.'],
      ['error', 'Too wide.'],
    ]);
    const [b, c] = [system.notes[1]!.heads[0]!.x, system.notes[2]!.heads[0]!.x];
    expect(bands[0]!.x).toBeLessThan(b);
    expect(bands[0]!.x + bands[0]!.w).toBeGreaterThan(c);
  });

  it('marks a finding of a note far from the staff around its head, clear of the tab', () => {
    for (const music of ['G,C,,,|', "G,c'|"]) {
      const { system, tabs, scene } = drawn(music);
      const finding = {
        from: 0,
        to: 1,
        code: 'range',
        severity: 'error',
        message: 'Out.',
        notes: [scene.notes[1]!.id],
        rests: 'plan',
      } as const;
      const [onStaff, onTab] = drawFindings(system, [finding], [tabs[0]!]);
      const { y } = system.notes[1]!.heads[0]!;
      expect(onStaff!.y).toBeLessThan(y - 4);
      expect(onStaff!.y + onStaff!.h).toBeGreaterThan(y + 4);
      expect(onStaff!.y + onStaff!.h).toBeLessThanOrEqual(onTab!.y);
    }
  });
});
