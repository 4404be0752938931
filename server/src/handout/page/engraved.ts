// A tune engraved for paper: one block a system, staff and tab together, and lines of words between.
import { drawSystem, headroom, type Look, rhythmRoom, tabRoom } from '../../drawing/index.ts';
import {
  drawTune,
  type EngravedSystem,
  type Guarded,
  guarded,
  type ParsedTune,
  parse,
  type SceneNote,
  type SheetItem,
  type SheetSystem,
  toSceneNotes,
} from '../../engraving/index.ts';
import { backbeatLegend } from '../backbeats.ts';
import type { ExportOptions, HandoutTune } from '../types.ts';
import { type Block, blockOf, textMark, wrapped } from './blocks.ts';
import type { FontBook } from './fonts.ts';
import { type Mark, marksOf } from './marks.ts';
import { measureBy } from './measure.ts';
import { gaps, type Paper, sizes, staffWidth, unit } from './paper.ts';
import { marksIn } from './walk.ts';

/** The blocks of a tune's music, or why it cannot be drawn. */
export type EngravedTune =
  | { readonly kind: 'drawn'; readonly blocks: readonly Block[] }
  | { readonly kind: 'failed'; readonly message: string };

/** Fonts of the music's own texts; sizes in points, as the library takes them (it multiplies by 4/3, and a unit is 0.686 pt). */
const musicFonts = {
  gchordfont: { face: 'sans', size: 12.5, weight: 'normal', style: 'normal', decoration: 'none' },
  annotationfont: { face: 'serif', size: 11, weight: 'normal', style: 'italic', decoration: 'none' },
  vocalfont: { face: 'serif', size: 12, weight: 'normal', style: 'normal', decoration: 'none' },
  partsfont: { face: 'serif', size: 13, weight: 'bold', style: 'normal', decoration: 'none' },
  tempofont: { face: 'serif', size: 12, weight: 'bold', style: 'normal', decoration: 'none' },
  repeatfont: { face: 'sans', size: 11, weight: 'normal', style: 'normal', decoration: 'none' },
  tripletfont: { face: 'serif', size: 10, weight: 'normal', style: 'italic', decoration: 'none' },
  measurefont: { face: 'serif', size: 9, weight: 'normal', style: 'italic', decoration: 'none' },
  voicefont: { face: 'serif', size: 11, weight: 'normal', style: 'normal', decoration: 'none' },
} as const;

/** One system as it is printed, with what stands where on it; in units of the engraving. */
export interface PrintedSystem {
  readonly system: EngravedSystem;
  readonly marks: readonly Mark[];
}

/** The systems of a tune, lines as wide as on the usual paper; or why it cannot be drawn. */
export function engravedSystems(tune: HandoutTune, paper: Paper, fonts: FontBook): readonly PrintedSystem[] | { readonly problem: string } {
  const look = lookOf(tune, { density: 'all', rhythm: 'none' }, fonts);
  const drawn = drawnTune(tune, look, staffWidth(paper), fonts);
  if (!drawn.ok) return { problem: drawn.failed.message };
  return drawn.value.flatMap((item) =>
    item.kind === 'words' ? [] : [{ system: item.system, marks: printedMarks(item, tune, look, fonts) }],
  );
}

/** What the writer of a page chooses of how a tune is drawn. */
export type Drawing = Pick<ExportOptions, 'density' | 'rhythm'>;

function lookOf({ score, plans }: HandoutTune, { density, rhythm }: Drawing, fonts: FontBook): Look {
  const bassVoices = plans.map((plan) => plan.voice);
  const rhythms = rhythm === 'none' ? [] : score.voices.filter(({ id }) => bassVoices.includes(id));
  const figure = fonts.width('0', 'digits', 1);
  return { density, bassVoices, rhythms, figures: { pinned: figure, computed: figure } };
}

const printedMarks = (item: SheetSystem, tune: HandoutTune, look: Look, fonts: FontBook): readonly Mark[] => [
  ...marksIn(item.kept.drawn.picture, fonts),
  ...drawSystem(item.system, tune.plans, look).flatMap(marksOf),
];

function drawnTune(tune: HandoutTune, look: Look, width: number, fonts: FontBook): Guarded<readonly SheetItem[]> {
  const parsed = parse(tune.engraving, drawnNotes(tune));
  if (!parsed.ok) return parsed;
  Object.assign(parsed.value.tune.formatting, musicFonts);
  return guarded('draw', () => drawnItems(parsed.value, tune, look, width, fonts));
}

/** Engraves a tune on lines as wide as the paper allows; `size` is a share of the usual staff size. */
export function engraveForPaper(tune: HandoutTune, paper: Paper, fonts: FontBook, drawing: Drawing, size: number): EngravedTune {
  const look = lookOf(tune, drawing, fonts);
  const drawn = drawnTune(tune, look, staffWidth(paper) / size, fonts);
  if (!drawn.ok) return { kind: 'failed', message: drawn.failed.message };
  const titles = new Set(tune.score.texts.filter((text) => text.letter === 'T').map((text) => text.text));
  // The library repeats further titles of the header before the music; ours stand under the title.
  const items = drawn.value.filter((item) => item.kind !== 'words' || item.role !== 'subtitle' || !titles.has(item.text));
  return { kind: 'drawn', blocks: items.map((item) => itemBlock(item, tune, look, { paper, size }, fonts)) };
}

/** The notes with the marks to draw: accents that the legend tells are left out. */
function drawnNotes(tune: HandoutTune): readonly SceneNote[] {
  const notes = toSceneNotes(tune.score);
  if (backbeatLegend(tune) === null) return notes;
  return notes.map((note) => ({ ...note, marks: note.marks.filter((mark) => mark !== 'accent') }));
}

function drawnItems(parsed: ParsedTune, tune: HandoutTune, look: Look, width: number, fonts: FontBook): readonly SheetItem[] {
  const room = tabRoom + (look.rhythms?.length ? rhythmRoom : 0);
  const options = { width, tabRoom: room, headroom, bassVoices: tune.plans.map((plan) => plan.voice) };
  return [...drawTune(parsed, options, new Map(), measureBy(fonts))];
}

function itemBlock(
  item: SheetItem,
  tune: HandoutTune,
  look: Look,
  set: { readonly paper: Paper; readonly size: number },
  fonts: FontBook,
): Block {
  const width = staffWidth(set.paper) * unit;
  if (item.kind === 'words') return wordsBlock(item.text, item.role === 'subtitle' ? 'serif-bold' : 'serif', width, fonts);
  const marks = printedMarks(item, tune, look, fonts);
  // A line too dense for the paper is set smaller, not cut off.
  const scale = Math.min(unit * set.size, width / item.system.reach);
  return blockOf(fonts, 'system', marks, scale);
}

function wordsBlock(text: string, face: 'serif' | 'serif-bold', width: number, fonts: FontBook): Block {
  const lines = text.split('\n').flatMap((line) => wrapped(fonts, line, face, sizes.words, width));
  return blockOf(
    fonts,
    'words',
    lines.map((line, i) => textMark(line, 0, i * gaps.line, sizes.words, face)),
    1,
  );
}
