// Stands in for what the library draws on: takes each call as an element of a picture.
import { type Given, type Measure, Recorded, RecordedText, type TextSize } from './picture.ts';

const level = (x: number, y: number, length: number): string => `M ${x} ${y} l ${length} 0 l 0 1  l ${-length} 0  z `;
const upright = (x: number, y: number, length: number): string => `M ${x} ${y} l 0 ${length} l 1 0  l 0 ${-length}  z `;

interface Frame {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Selections are the page's own. */
const ofSelections: ReadonlySet<string> = new Set(['selectable', 'data-index']);

export class Recorder {
  /** All that is drawn; the library takes it for its svg. */
  svg = new Recorded('g', {});
  private readonly measure: Measure;
  /** Groups that are open, the innermost last. */
  private readonly groups: Recorded[] = [];

  constructor(measure: Measure) {
    this.measure = measure;
  }

  clear(): void {
    this.svg = new Recorded('g', {});
    this.groups.length = 0;
  }

  openGroup(given: Given = {}): Recorded {
    const { prepend, klass, ...attributes } = given;
    const group = new Recorded('g', { ...attributes, klass: klass || undefined });
    if (prepend) this.putBehind(group);
    else this.put(group);
    this.groups.push(group);
    return group;
  }

  /** The group that was open; null, and gone, if nothing was drawn in it. */
  closeGroup(): Recorded | null {
    const group = this.groups.pop();
    if (group === undefined || group.children.length > 0) return group ?? null;
    const around = this.inner.children;
    around.splice(around.indexOf(group), 1);
    return null;
  }

  path(given: Given): Recorded {
    return this.put(new Recorded('path', given));
  }

  pathToBack(given: Given): Recorded {
    return this.putBehind(new Recorded('path', given));
  }

  lineToBack(given: Given): Recorded {
    return this.putBehind(new Recorded('line', given));
  }

  /** The frame of a boxed text. */
  rect({ x, y, width, height, ...others }: Frame & Given): Recorded {
    const [right, bottom] = [x + width, y + height];
    const path = [level(x, y, width), level(x, bottom, width), upright(right, y, height), upright(x, bottom, -height)].join(' ');
    return this.path({ path, stroke: 'none', 'data-name': others['data-name'] });
  }

  text(said: unknown, given: Given): Recorded {
    return this.put(new RecordedText(String(said), given, this.measure));
  }

  getTextSize(said: unknown, given: Given): TextSize {
    const words = String(said ?? '');
    return words.trim() === '' ? { width: 0, height: 0 } : this.measure(words, new Recorded('text', given).attributes);
  }

  setAttributeOnElement(element: Recorded, given: Given): void {
    for (const key in given) if (!ofSelections.has(key)) element.setAttribute(key, given[key]);
  }

  // What the library says of the svg as a whole is the page's to decide.
  setSize(): void {}
  setScale(): void {}
  setParentStyles(): void {}
  insertStyles(): void {}

  private get inner(): Recorded {
    return this.groups.at(-1) ?? this.svg;
  }

  private put(element: Recorded): Recorded {
    this.inner.children.push(element);
    return element;
  }

  /** Behind all that is drawn so far; inside a group the order of drawing stands. */
  private putBehind(element: Recorded): Recorded {
    if (this.groups.length > 0) return this.put(element);
    this.svg.children.unshift(element);
    return element;
  }
}
