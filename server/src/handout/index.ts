// Everything that can be handed out: pages, text, sound. Loaded on demand, for it brings the engraving and PDF libraries.
export { type BarRange, barsName } from './bars.ts';
export { htmlFile } from './html/file.ts';
export { musicXml } from './musicxml/file.ts';
export { type Packet, type PacketTune, packetFront, packetTitle } from './packet.ts';
export { type FontBook, type FontFiles, type FontName, fontNames, openFonts } from './page/fonts.ts';
export type { FrontPage } from './page/front.ts';
export { type BookTune, type MadeSheet, makeBook, makeSheet } from './page/make.ts';
export { pdfFile } from './page/pdf.ts';
export type { Page, Sheet } from './page/sheet.ts';
export { svgPage } from './page/svg.ts';
export { allBars, clockText, partBars, secondsOf, suggestedFocus, suggestedTempos, tuneTempo, unnamedTempo } from './practice.ts';
export { midiFile } from './sound/midi.ts';
export type { PracticeOptions } from './sound/timeline.ts';
export { wavFile } from './sound/wav.ts';
export { textTab } from './text-tab/text.ts';
export type { Density, ExportOptions, HandoutTune } from './types.ts';
export { utf8 } from './utf8.ts';
