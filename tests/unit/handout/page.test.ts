// Sheets: nothing collides, nothing leaves the page, equal input gives equal bytes, hostile text stays text.
import { describe, expect, it } from 'vitest';
import { flowing, flowOf, openFonts, pdfFile, type Sheet, svgPage } from '../../../server/src/handout/index.ts';
import { markBox } from '../../../server/src/handout/page/fonts.ts';
import { margins } from '../../../server/src/handout/page/paper.ts';
import type { Box } from '../../../server/src/handout/page/path.ts';
import { demoBook, fontFiles, fullTune, handoutTunes, look, madeSheet } from '../../support/handout.ts';

const fonts = openFonts(fontFiles);
const sheets = new Map<string, Sheet>();

/** The sheet of a book, made once a text and paper. */
function sheetOf(text: string, paper: 'a4' | 'letter' = 'a4', rhythm: 'stems' | 'none' = 'none'): Sheet {
  const made = sheets.get(paper + rhythm + text) ?? fresh(text, paper, rhythm);
  sheets.set(paper + rhythm + text, made);
  return made;
}

const fresh = (text: string, paper: 'a4' | 'letter', rhythm: 'stems' | 'none'): Sheet => {
  const { sheet, problems } = madeSheet(handoutTunes(text), fonts, { ...look, paper, rhythm, density: 'all' });
  expect(problems).toEqual([]);
  return sheet;
};

/** Boxes of all texts of a page, in points from its corner. */
const textBoxes = (sheet: Sheet, page: number): readonly (Box & { text: string })[] =>
  sheet.pages[page]!.placed.flatMap(({ x, y, scale, marks }) =>
    marks.flatMap((mark) => {
      if (mark.kind !== 'text') return [];
      const box = markBox(fonts, mark);
      return [
        {
          text: mark.text,
          left: x + box.left * scale,
          right: x + box.right * scale,
          top: y + box.top * scale,
          bottom: y + box.bottom * scale,
        },
      ];
    }),
  );

const overlap = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** One tune of a book, by its number. */
const tuneOf = (book: string, number: number): string => new RegExp(`^X:${number}\n[^]*?(?=^X:|$(?![^]))`, 'm').exec(book)![0];

/** Low notes on ledger lines, words, endings under chords, a tuplet, high notes, rests: what reaches far from the staff, close together. */
const deepTune = `X:1
T:Ψηλά και χαμηλά
T:Вниз и вверх
C:Żółw
M:4/4
L:1/8
Q:1/4=80
K:E clef=bass
P:A
|:"E7sus4"E,,F,, "B/D#"G,,A,, "C#m7"B,,/C,/D,/E,/ F,2|"A"e2 (3def "F#m7b5"g2 z2|w
"B7"c'2 b2 a2 g2|1 "Amaj7"E,,4 z2 B,,2:|2 "G#m"E,6 z E,|
[E,,B,,]2 !>![A,,E,]2 !slide!B,2 (C/D/C/B,/)|E,8|]
`.replace('z2|w\n', 'z2|\nw:low as it goes and down and on, be-low the staff we sing\n');

const books = { full: fullTune, deep: deepTune, thumb: demoBook('lamplighters-ladder'), accents: tuneOf(demoBook('towpath-breakdown'), 2) };

describe('makeSheet', () => {
  const drawn = Object.entries(books).flatMap(([name, text]) =>
    (['none', 'stems'] as const).map((rhythm) => [name, rhythm, text] as const),
  );
  it.each(drawn)('sets no text over another (%s, rhythm: %s)', (_, rhythm, text) => {
    const sheet = sheetOf(text, 'a4', rhythm);
    for (const page of sheet.pages.keys()) {
      const boxes = textBoxes(sheet, page);
      const pairs = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter((b) => overlap(a, b))
          .map((b) => `${a.text} / ${b.text}`),
      );
      expect(pairs).toEqual([]);
    }
  });

  it.each(['a4', 'letter'] as const)('keeps every mark on the paper (%s)', (paper) => {
    const sheet = sheetOf(paper === 'a4' ? books.thumb : fullTune, paper);
    for (const page of sheet.pages.keys()) {
      for (const box of textBoxes(sheet, page)) {
        expect(box.left, box.text).toBeGreaterThan(margins.side - 1);
        expect(box.right, box.text).toBeLessThan(sheet.paper.width - margins.side + 1);
        expect(box.top).toBeGreaterThan(20);
        expect(box.bottom).toBeLessThan(sheet.paper.height - 20);
      }
    }
  });

  it('marks the page of each tune', () => {
    expect(sheetOf(books.thumb).bookmarks.map(({ title, page }) => [title, page])).toEqual([
      ["The Lamplighter's Ladder", 0],
      ["The Lamplighter's Ladder (low)", 1],
      ["The Lamplighter's Ladder (high)", 2],
    ]);
  });

  it('prints every letter it has a font for, and counts those it has none for', () => {
    const missing = (text: string): readonly string[] => madeSheet(handoutTunes(text), fonts).missing;
    expect(missing(fullTune)).toEqual([]);
    expect(missing('X:1\nT:音\nK:C clef=bass\nC,|\n')).toEqual(['音']);
  });

  it('tells which tune could not be drawn and sets the rest', () => {
    const tunes = handoutTunes(books.thumb);
    const broken = { ...tunes[0]!, engraving: null as never };
    const { sheet, problems } = madeSheet([broken, tunes[1]!], fonts);
    expect(problems.map(({ title }) => title)).toEqual(["The Lamplighter's Ladder"]);
    expect(sheet.bookmarks).toHaveLength(2);
  });
});

describe('pdfFile and svgPage', () => {
  it('give equal bytes for equal input', async () => {
    const order = { title: 'Book', front: null, options: look, told: () => {} };
    const kept = madeSheet(handoutTunes(fullTune), fonts).flow;
    const other = flowOf({ ...order, tunes: flowing(handoutTunes(fullTune)), fonts: openFonts(fontFiles) });
    const [a, b] = [await pdfFile(kept, fonts), await pdfFile(other, openFonts(fontFiles))];
    expect(Buffer.compare(a, b)).toBe(0);
  });

  it('keep text of a tune from becoming markup', () => {
    const sheet = sheetOf('X:1\nT:<script>alert(1)</script>&"\nK:C clef=bass\n"^<b>"C, D,|\n');
    const svg = svgPage(sheet, sheet.pages[0]!, fonts, 'fonts-outside');
    expect(svg).not.toMatch(/<script|<b>/);
    expect(svg).toContain('&#60;script&#62;');
  });
});
