// Short ways to make elements. Text is always set as text, never as markup.
const svgSpace = 'http://www.w3.org/2000/svg';

type Attributes = Readonly<Record<string, string | number>>;

function withAttributes<E extends Element>(element: E, attributes: Attributes, children: readonly Node[]): E {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  element.append(...children);
  return element;
}

export function svg<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: Node[]
): SVGElementTagNameMap[K] {
  return withAttributes(document.createElementNS(svgSpace, name), attributes, children);
}

export function html<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: Node[]
): HTMLElementTagNameMap[K] {
  return withAttributes(document.createElement(name), attributes, children);
}

export const text = (value: string): Text => document.createTextNode(value);
