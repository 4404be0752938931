// The little of a document that the engraving library draws into, without a browser: elements, attributes, and text boxes from font metrics.

/** Measures a text element: width and height of its box. */
export type Measure = (element: PaperElement) => { readonly width: number; readonly height: number };

/** An element or a piece of text; a tree as the library builds it. */
export class PaperElement {
  readonly nodeName: string;
  readonly nodeType: 1 | 3;
  readonly childNodes: PaperElement[] = [];
  readonly style: Record<string, string> = {};
  parentNode: PaperElement | null = null;
  private readonly attributes = new Map<string, string>();
  private readonly measure: Measure;
  private ownText: string;

  constructor(nodeName: string, nodeType: 1 | 3, measure: Measure, ownText = '') {
    this.nodeName = nodeName;
    this.nodeType = nodeType;
    this.measure = measure;
    this.ownText = ownText;
  }

  get children(): readonly PaperElement[] {
    return this.childNodes.filter((child) => child.nodeType === 1);
  }

  get firstChild(): PaperElement | null {
    return this.childNodes[0] ?? null;
  }

  get parentElement(): PaperElement | null {
    return this.parentNode;
  }

  get classList(): readonly string[] {
    return (this.getAttribute('class') ?? '').split(' ').filter((name) => name !== '');
  }

  get textContent(): string {
    return this.nodeType === 3 ? this.ownText : this.childNodes.map((child) => child.textContent).join('');
  }

  set textContent(text: string) {
    this.childNodes.length = 0;
    if (text !== '') this.appendChild(new PaperElement('#text', 3, this.measure, text));
  }

  /** The library sets it to nothing, or to a space that does not break. */
  set innerHTML(text: string) {
    this.textContent = text === '' ? '' : '\u00a0';
  }

  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }

  setAttribute(name: string, value: unknown): void {
    this.attributes.set(name, String(value));
  }

  setAttributeNS(_space: string | null, name: string, value: unknown): void {
    this.setAttribute(name, value);
  }

  removeAttribute(name: string): void {
    this.attributes.delete(name);
  }

  appendChild(child: PaperElement): PaperElement {
    return this.insertBefore(child, null);
  }

  insertBefore(child: PaperElement, before: PaperElement | null): PaperElement {
    child.parentNode?.removeChild(child);
    const at = before === null ? -1 : this.childNodes.indexOf(before);
    this.childNodes.splice(at < 0 ? this.childNodes.length : at, 0, child);
    child.parentNode = this;
    return child;
  }

  removeChild(child: PaperElement): PaperElement {
    const at = this.childNodes.indexOf(child);
    if (at >= 0) this.childNodes.splice(at, 1);
    child.parentNode = null;
    return child;
  }

  /** Nobody clicks on paper. */
  addEventListener(): void {}

  getBBox(): { x: number; y: number; width: number; height: number } {
    return { x: 0, y: 0, ...this.measure(this) };
  }
}

/** A document for one drawing at a time. */
export interface PaperDocument {
  readonly body: PaperElement;
  createElement(name: string): PaperElement;
  createElementNS(space: string, name: string): PaperElement;
  createTextNode(text: string): PaperElement;
  querySelector(selector: string): PaperElement | null;
}

export function paperDocument(measure: Measure): PaperDocument {
  const body = new PaperElement('body', 1, measure);
  return {
    body,
    createElement: (name) => new PaperElement(name, 1, measure),
    createElementNS: (_space, name) => new PaperElement(name, 1, measure),
    createTextNode: (text) => new PaperElement('#text', 3, measure, text),
    querySelector: (selector) => (selector === 'body' ? body : null),
  };
}

/** Runs `work` with `document` and a nameless browser in the places where the library looks for them; what stood there comes back. */
export function inDocument<T>(document: PaperDocument, work: () => T): T {
  const stands = { document, navigator: { userAgent: '' } };
  const before = Object.keys(stands).map((name) => [name, Object.getOwnPropertyDescriptor(globalThis, name)] as const);
  for (const [name, value] of Object.entries(stands))
    Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
  try {
    return work();
  } finally {
    for (const [name, descriptor] of before) {
      if (descriptor === undefined) Reflect.deleteProperty(globalThis, name);
      else Object.defineProperty(globalThis, name, descriptor);
    }
  }
}
