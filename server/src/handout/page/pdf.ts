// A sheet as PDF: vector paths and selectable text, fonts embedded as subsets, a bookmark a tune. Equal sheets give equal bytes.
import PDFDocument from 'pdfkit';
import { type FontBook, fontNames, placedRuns } from './fonts.ts';
import { type Mark, type PathMark, short, type TextMark } from './marks.ts';
import { piecesOf } from './path.ts';
import type { Placed, Sheet } from './sheet.ts';

/** Dates inside the file are fixed: the clock must not make two equal pages differ. */
const fixedDate = new Date(0);

/** The file's bytes. */
export async function pdfFile(sheet: Sheet, fonts: FontBook): Promise<Uint8Array> {
  const size: readonly [number, number] = [sheet.paper.width, sheet.paper.height];
  const pdf = new PDFDocument({
    size,
    margin: 0,
    autoFirstPage: false,
    font: null,
    info: { Title: sheet.title, Creator: 'Bullfiddle', Producer: 'Bullfiddle', CreationDate: fixedDate },
    lang: 'en',
    displayTitle: true,
  });
  const done = collected(pdf);
  for (const name of fontNames) pdf.registerFont(name, fonts.opened[name]);
  for (const [p, page] of sheet.pages.entries()) {
    pdf.addPage({ size, margin: 0 });
    for (const bookmark of sheet.bookmarks) if (bookmark.page === p) pdf.outline.addItem(bookmark.title);
    for (const placed of page.placed) paint(pdf, placed, fonts);
  }
  pdf.end();
  return done;
}

function collected(pdf: PDFDocument): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    pdf.on('data', (chunk) => chunks.push(chunk));
    pdf.on('error', reject);
    pdf.on('end', () => resolve(together(chunks)));
  });
}

function together(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}

function paint(pdf: PDFDocument, placed: Placed, fonts: FontBook): void {
  pdf.save();
  pdf.transform(placed.scale, 0, 0, placed.scale, placed.x, placed.y);
  for (const mark of placed.marks) paintMark(pdf, mark, fonts);
  pdf.restore();
}

function paintMark(pdf: PDFDocument, mark: Mark, fonts: FontBook): void {
  if (mark.kind === 'path') paintPath(pdf, mark);
  else paintText(pdf, mark, fonts);
}

/** Path operators (ISO 32000-1, 8.5.2). */
const operators = { move: 'm', line: 'l', curve: 'c', close: 'h' } as const;

/** Written as operators at once: the library would read the path again and keep each piece of it apart. */
function paintPath(pdf: PDFDocument, mark: PathMark): void {
  const path = piecesOf(mark.d)
    .map(({ kind, points }) => [...points.map(short), operators[kind]].join(' '))
    .join('\n');
  if (mark.fill) pdf.addContent(`${path}\nf`);
  if (mark.pen === 0) return;
  pdf.addContent(`${short(mark.pen)} w ${mark.ends === 'round' ? 1 : 0} J [${mark.dash?.join(' ') ?? ''}] 0 d\n${path}\nS`);
}

function paintText(pdf: PDFDocument, mark: TextMark, fonts: FontBook): void {
  for (const run of placedRuns(fonts, mark)) {
    // Without features the library shapes word by word, and kerns no space; our fonts know the whole text's shape.
    const options = { lineBreak: false, baseline: 'alphabetic', features: ['kern'], textWidth: 0, wordCount: 1 };
    pdf.font(run.font).fontSize(run.size).text(run.text, run.x, run.y, options);
  }
}
