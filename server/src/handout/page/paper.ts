// Paper and its measures, in points (1/72 inch). The figures come from pages set, printed and looked at.
const mm = 72 / 25.4;

export interface Paper {
  readonly width: number;
  readonly height: number;
}

export const papers: Readonly<Record<'a4' | 'letter', Paper>> = {
  a4: { width: 210 * mm, height: 297 * mm },
  letter: { width: 612, height: 792 },
};

export const margins = { side: 15 * mm, top: 14 * mm, bottom: 13 * mm } as const;

/** Points a unit of the engraving: a staff space of 7.75 units is 1.875 mm, a staff 7.5 mm high. */
export const unit = (1.875 * mm) / 7.75;

/** Gaps between systems: at least, and at most when a full page is spread. */
export const gaps = {
  least: 6.2 * mm,
  most: 11.3 * mm,
  afterTitle: 3.5 * mm,
  beforeTune: 10 * mm,
  beforeKey: 5 * mm,
  line: 4.4 * mm,
  /** Between the rows of a front page. */
  row: 2.2 * mm,
} as const;

export const sizes = { title: 22, subtitle: 11, heading: 13, words: 10.5, credit: 9.5, key: 8.2, foot: 7 } as const;

/** Width of the staff in units of the engraving. */
export const staffWidth = (paper: Paper): number => (paper.width - 2 * margins.side) / unit;
