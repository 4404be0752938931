// A picture as plain data: what the library would draw, so that it is made without a page and compared with the one before.

/** An element of a picture; names and attributes are those of SVG. */
export interface PictureNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly PictureNode[];
  /** The words of its own, which stand before its children. */
  readonly text: string;
}

/** Size of a text in units of the engraving. */
export interface TextSize {
  readonly width: number;
  readonly height: number;
}

/** Measures a text of one or more lines, set with the given attributes of SVG. */
export type Measure = (said: string, attributes: Readonly<Record<string, string>>) => TextSize;

/** As the library gives them: numbers too, and nothing for what is not to be set. */
export type Given = Readonly<Record<string, unknown>>;

/** For what the library has names of its own. */
const svgNames: Readonly<Record<string, string>> = { path: 'd', klass: 'class' };

/** An element with the little that the library asks of one. */
export class Recorded implements PictureNode {
  readonly name: string;
  readonly attributes: Record<string, string> = {};
  readonly children: Recorded[] = [];
  readonly text: string;

  constructor(name: string, given: Given, text = '') {
    this.name = name;
    this.text = text;
    for (const key in given) if (given[key] !== undefined) this.attributes[svgNames[key] ?? key] = String(given[key]);
  }

  getAttribute(name: string): string | null {
    return this.attributes[name] ?? null;
  }

  setAttribute(name: string, value: unknown): void {
    this.attributes[name] = String(value);
  }

  /** Nobody clicks on a recording. */
  addEventListener(): void {}
}

/** The library parts the raised from the plain and the lowered of a chord symbol by this sign. */
const partSign = '\x03';

/** All words of an element. */
export const wordsIn = (node: PictureNode): string => node.text + node.children.map(wordsIn).join('');

/** Without the signs that part a chord symbol. */
export const plainText = (said: string): string => said.replaceAll(partSign, '');

const chordPart = (text: string, dy: string): Recorded => new Recorded('tspan', { dy, style: 'font-size:0.7em' }, text);

/** A line below the first by 1.2 of its size, a chord symbol's parts set smaller, raised and lowered: as the library sets them. */
function lineOf(said: string, given: Given, at: number): Recorded {
  const [plain, up, down] = said.split(partSign);
  const line = new Recorded('tspan', { x: given.x || 0, dy: at === 0 ? undefined : '1.2em' }, plain);
  if (up) line.children.push(chordPart(up, '-0.3em'));
  if (down) line.children.push(chordPart(down, up ? '0.4em' : '0.1em'));
  return line;
}

/** A text as the library sets it: an element `text` with a `tspan` a line. */
export class RecordedText extends Recorded {
  private readonly said: string;
  private readonly measure: Measure;

  constructor(said: string, given: Given, measure: Measure) {
    super('text', { stroke: 'none', ...given });
    this.said = said;
    this.measure = measure;
    said.split('\n').forEach((line, i) => void this.children.push(lineOf(line, given, i)));
  }

  /** Asked for when a frame is drawn round a text. */
  getBBox(): TextSize {
    return this.measure(this.said, this.attributes);
  }
}
