// An engraved picture in the page: what stands there takes over what differs, so that a moved note is not a new one to lay out.
import type { PictureNode } from '../../server/src/engraving/index.ts';
import { svg, text } from './dom.ts';

/** An element of a picture as it stands in the page. */
export interface PaintedPicture {
  readonly node: PictureNode;
  readonly element: SVGElement;
  readonly children: readonly PaintedPicture[];
}

/** A picture painted for the first time. */
export function paintPicture(node: PictureNode): PaintedPicture {
  const children = node.children.map(paintPicture);
  const words = node.text === '' ? [] : [text(node.text)];
  const element = svg(node.name as 'g', node.attributes, ...words, ...children.map((child) => child.element));
  return { node, element, children };
}

function takeAttributes(element: Element, old: PictureNode['attributes'], next: PictureNode['attributes']): void {
  for (const name in next) if (next[name] !== old[name]) element.setAttribute(name, next[name]!);
  for (const name in old) if (next[name] === undefined) element.removeAttribute(name);
}

/** The children of `next`, each in the place of the old one that stood there if both are of one kind. */
function takeChildren(element: Element, old: readonly PaintedPicture[], next: readonly PictureNode[]): readonly PaintedPicture[] {
  for (const child of old.slice(next.length)) child.element.remove();
  return next.map((node, i) => {
    const before = old[i];
    const painted = before === undefined ? paintPicture(node) : repaintPicture(before, node);
    if (before === undefined) element.append(painted.element);
    else if (painted.element !== before.element) before.element.replaceWith(painted.element);
    return painted;
  });
}

/** Makes a painted picture into another one. One of another kind, or with other words, is painted anew, and takes no place yet. */
export function repaintPicture(old: PaintedPicture, next: PictureNode): PaintedPicture {
  if (next === old.node) return old;
  if (next.name !== old.node.name || next.text !== old.node.text) return paintPicture(next);
  takeAttributes(old.element, old.node.attributes, next.attributes);
  return { node: next, element: old.element, children: takeChildren(old.element, old.children, next.children) };
}
