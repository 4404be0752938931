// The fonts of the page: which one has a letter, and how wide a text is. Widths are the advance with kerning, as page and PDF lay it out.
import * as fontkit from 'fontkit';
import type { Face, Mark, TextMark } from './marks.ts';
import { type Box, pathBox } from './path.ts';

/** A font file: the four faces of the page, and the accidentals that none of them has. */
export type FontName = Face | 'accidentals';
export type FontFiles = Readonly<Record<FontName, Uint8Array>>;

export const fontNames: readonly FontName[] = ['serif', 'serif-italic', 'serif-bold', 'digits', 'accidentals'];

/** A stretch of text set in one font. */
export interface Run {
  readonly font: FontName;
  readonly text: string;
}

export interface FontBook {
  readonly files: FontFiles;
  /** The fonts themselves, for a painter that embeds them; each remembers the shapes of words. */
  readonly opened: Readonly<Record<FontName, fontkit.Font>>;
  /** Text cut where the font must change; letters that no font has become `□`. */
  runs(text: string, face: Face): readonly Run[];
  /** Advance in the units of `size`. */
  width(text: string, face: Face, size: number): number;
  /** Advance of a run in a text of `size`. */
  runWidth(run: Run, size: number): number;
  /** The outlines of a run as path data: for painters that read no fonts. */
  outline(run: PlacedRun): string;
  /** Height above and depth below the baseline that a line of the face takes, for size 1. */
  readonly lines: Readonly<Record<Face, { readonly ascent: number; readonly descent: number }>>;
  /** Whether any font has a letter. */
  has(letter: string): boolean;
}

/** How a font is set beside the faces: its size as a share of the text's, and how far its baseline is raised, as a share of the text's size. The accidentals are drawn for the staff, small and deep. */
const settings: Readonly<Record<FontName, { readonly scale: number; readonly lift: number }>> = {
  serif: { scale: 1, lift: 0 },
  'serif-italic': { scale: 1, lift: 0 },
  'serif-bold': { scale: 1, lift: 0 },
  digits: { scale: 1, lift: 0 },
  accidentals: { scale: 1.3, lift: 0.12 },
};

/** A run with the place of its baseline's start, its own size, and its width as a share of what the font gives. */
export interface PlacedRun extends Run {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly stretch: number;
}

/** The runs of a text mark, each where it is painted. */
export function placedRuns(fonts: FontBook, mark: TextMark): readonly PlacedRun[] {
  let x = textLeft(fonts, mark);
  return fonts.runs(mark.text, mark.face).map((run) => {
    const { scale, lift } = settings[run.font];
    const placed = { ...run, x, y: mark.y - lift * mark.size, size: mark.size * scale, stretch: mark.stretch };
    x += fonts.runWidth(run, mark.size) * mark.stretch;
    return placed;
  });
}

/** Fonts tried for a letter, after the face itself. */
const fallbacks: readonly FontName[] = ['accidentals', 'serif', 'digits'];
const box = '□';
/** Results kept of each kind: a book repeats its words. */
const mostKept = 20_000;

/** Opens the fonts. Throws if a file is no font: they are ours. */
export function openFonts(files: FontFiles): FontBook {
  const fonts = Object.fromEntries(fontNames.map((name) => [name, openFont(files[name])])) as Record<FontName, fontkit.Font>;
  const holds = (name: FontName, letter: string): boolean => fonts[name].hasGlyphForCodePoint(letter.codePointAt(0)!);

  const fontFor = (letter: string, face: Face): FontName | null => [face, ...fallbacks].find((name) => holds(name, letter)) ?? null;

  function runs(text: string, face: Face): readonly Run[] {
    const found: { font: FontName; text: string }[] = [];
    for (const letter of text) {
      const font = fontFor(letter, face);
      const run = { font: font ?? face, text: font === null ? box : letter };
      const last = found.at(-1);
      if (last?.font === run.font) last.text += run.text;
      else found.push(run);
    }
    return found;
  }

  const runUnits = remembering(textKey, (run: Run) => {
    const font = fonts[run.font];
    return (font.layout(run.text).advanceWidth / font.unitsPerEm) * settings[run.font].scale;
  });
  const cutRuns = remembering(textKey, (text: { readonly font: Face; readonly text: string }) => runs(text.text, text.font));
  const runWidth = (run: Run, size: number): number => runUnits(run) * size;
  const width = (text: string, face: Face, size: number): number =>
    cutRuns({ font: face, text }).reduce((sum, run) => sum + runUnits(run), 0) * size;

  function outline({ x, y, size, stretch, ...run }: PlacedRun): string {
    const font = fonts[run.font];
    const { glyphs, positions } = font.layout(run.text);
    const scale = size / font.unitsPerEm;
    let at = x;
    return glyphs
      .map((glyph, i) => {
        const { xAdvance, xOffset } = positions[i]!;
        const d = glyph.path
          .scale(scale * stretch, -scale)
          .translate(at + xOffset * scale * stretch, y)
          .toSVG();
        at += xAdvance * scale * stretch;
        return d;
      })
      .join('');
  }

  const line = (name: Face): { ascent: number; descent: number } => {
    const { ascent, descent, unitsPerEm } = fonts[name];
    return { ascent: ascent / unitsPerEm, descent: -descent / unitsPerEm };
  };
  const lines = { serif: line('serif'), 'serif-italic': line('serif-italic'), 'serif-bold': line('serif-bold'), digits: line('digits') };
  return {
    files,
    opened: fonts,
    runs: (text, face) => cutRuns({ font: face, text }),
    width,
    runWidth,
    outline,
    lines,
    has: (letter) => fontNames.some((name) => holds(name, letter)),
  };
}

/** A font that shapes a text once, kerned across spaces; painters scale the positions they are given, so each gets its own. */
function openFont(bytes: Uint8Array): fontkit.Font {
  const font = fontkit.create(bytes);
  const shaped = remembering(
    (text: string) => text,
    (text) => font.layout(text, ['kern']),
  );
  const layout = (text: string): fontkit.GlyphRun => {
    const { advanceWidth, glyphs, positions } = shaped(text);
    return { advanceWidth, glyphs, positions: positions.map((position) => ({ ...position })) };
  };
  return Object.create(font, { layout: { value: layout } });
}

const textKey = ({ font, text }: Run): string => `${font} ${text}`;

/** The function with its results kept by key. */
function remembering<T, R>(keyOf: (of: T) => string, make: (of: T) => R): (of: T) => R {
  const kept = new Map<string, R>();
  return (of) => {
    const key = keyOf(of);
    const known = kept.get(key);
    if (known !== undefined) return known;
    if (kept.size >= mostKept) kept.clear();
    const made = make(of);
    kept.set(key, made);
    return made;
  };
}

const textWidth = (fonts: FontBook, { text, face, size, stretch }: TextMark): number => fonts.width(text, face, size) * stretch;

/** Where a text begins, by its anchor. */
export function textLeft(fonts: FontBook, mark: TextMark): number {
  const width = textWidth(fonts, mark);
  return mark.anchor === 'start' ? mark.x : mark.anchor === 'middle' ? mark.x - width / 2 : mark.x - width;
}

/** Height of capitals and figures over the baseline, and depth of descenders, for size 1: what a text covers to the eye. */
const covered = { above: 0.7, below: 0.22 } as const;

/** The box of a mark's ink. Figures have no descenders. */
export function markBox(fonts: FontBook, mark: Mark): Box {
  if (mark.kind === 'text') {
    const left = textLeft(fonts, mark);
    const below = mark.face === 'digits' ? 0 : covered.below * mark.size;
    return {
      left,
      top: mark.y - covered.above * mark.size,
      right: left + textWidth(fonts, mark),
      bottom: mark.y + below,
    };
  }
  const { left, top, right, bottom } = pathBox(mark.d);
  const pen = mark.pen / 2;
  return { left: left - pen, top: top - pen, right: right + pen, bottom: bottom + pen };
}
