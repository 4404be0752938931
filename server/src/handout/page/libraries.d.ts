// The little of the font and PDF libraries that the page uses; they bring no types of their own.

declare module 'fontkit' {
  export interface Path {
    scale(x: number, y: number): Path;
    translate(x: number, y: number): Path;
    toSVG(): string;
  }
  export interface GlyphRun {
    readonly advanceWidth: number;
    readonly glyphs: readonly { readonly path: Path }[];
    readonly positions: readonly { readonly xAdvance: number; readonly xOffset: number }[];
  }
  export interface Font {
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string, features?: readonly string[]): GlyphRun;
  }
  export function create(bytes: Uint8Array): Font;
}

declare module 'pdfkit' {
  interface Reference {
    end(): void;
  }
  interface Outline {
    addItem(title: string, options?: { readonly expanded?: boolean }): Outline;
  }
  export default class PDFDocument {
    constructor(options: object);
    readonly outline: Outline;
    readonly page: {
      readonly dictionary: { readonly data: Record<string, unknown> };
      /** What is painted goes here. */
      content: Reference;
    };
    ref(): Reference;
    switchToPage(index: number): void;
    on(event: 'data', listener: (chunk: Uint8Array) => void): this;
    on(event: 'end', listener: () => void): this;
    on(event: 'error', listener: (problem: Error) => void): this;
    registerFont(name: string, font: import('fontkit').Font): this;
    addPage(options?: object): this;
    font(name: string): this;
    fontSize(size: number): this;
    text(text: string, x: number, y: number, options: object): this;
    addContent(operators: string): this;
    save(): this;
    restore(): this;
    transform(a: number, b: number, c: number, d: number, e: number, f: number): this;
    end(): void;
  }
}
