// A sheet as PDF: vector paths and selectable text, fonts embedded as subsets, a bookmark a tune. Equal pages give equal bytes.
import PDFDocument from 'pdfkit';
import { type FontBook, fontNames, placedRuns } from './fonts.ts';
import type { Flow } from './make.ts';
import { type Mark, type PathMark, short, type TextMark } from './marks.ts';
import { piecesOf } from './path.ts';
import type { Placed } from './sheet.ts';

/** Dates inside the file are fixed: the clock must not make two equal pages differ. */
const fixedDate = new Date(0);

/** The file's bytes, page by page: a page is written out when it is painted, and only its foot is still to come. */
export async function* pdfChunks(flow: Flow, fonts: FontBook): AsyncGenerator<Uint8Array, void> {
  const size: readonly [number, number] = [flow.paper.width, flow.paper.height];
  const pdf = new PDFDocument({
    size,
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    font: null,
    info: { Title: flow.title, Creator: 'Bullfiddle', Producer: 'Bullfiddle', CreationDate: fixedDate },
    lang: 'en',
    displayTitle: true,
  });
  const { taken, ended } = collected(pdf);
  for (const name of fontNames) pdf.registerFont(name, fonts.opened[name]);
  const add = (titles: readonly string[], placed: readonly Placed[]): void => {
    pdf.addPage({ size, margin: 0 });
    for (const title of titles) pdf.outline.addItem(title);
    for (const each of placed) paint(pdf, each, fonts);
    writeOut(pdf);
  };
  for (const title of flow.front) add(title === null ? [] : [title], []);
  for (const { begins, placed } of flow.pages) {
    add(
      begins.map(({ title }) => title),
      placed,
    );
    yield taken();
  }
  for (const [p, placed] of flow.last().entries()) {
    pdf.switchToPage(p);
    for (const each of placed) paint(pdf, each, fonts);
  }
  pdf.end();
  await ended;
  yield taken();
}

/** The file's bytes at once. */
export async function pdfFile(flow: Flow, fonts: FontBook): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of pdfChunks(flow, fonts)) chunks.push(chunk);
  return together(chunks);
}

/** Ends the stream of a page's content; what is painted on the page later stands in a second one (ISO 32000-1, 7.7.3.3). */
function writeOut(pdf: PDFDocument): void {
  const { page } = pdf;
  const { content } = page;
  content.end();
  page.content = pdf.ref();
  page.dictionary.data.Contents = [content, page.content];
}

/** The bytes that a document has given so far, each once, and when it has given all. */
function collected(pdf: PDFDocument): { taken(): Uint8Array; readonly ended: Promise<void> } {
  const chunks: Uint8Array[] = [];
  const ended = new Promise<void>((resolve, reject) => {
    pdf.on('data', (chunk) => chunks.push(chunk));
    pdf.on('error', reject);
    pdf.on('end', resolve);
  });
  return { taken: () => together(chunks.splice(0)), ended };
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
    if (run.stretch === 1) pdf.font(run.font).fontSize(run.size).text(run.text, run.x, run.y, options);
    else {
      pdf.save();
      pdf.transform(run.stretch, 0, 0, 1, run.x, 0);
      pdf.font(run.font).fontSize(run.size).text(run.text, 0, run.y, options);
      pdf.restore();
    }
  }
}
