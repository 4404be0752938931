// Brings what stands in the page to what is wanted with the fewest changes: what stays is not touched, so nothing flickers or is laid out anew.

/** Removes what is not wanted first, then inserts what is new: moving kept pictures would be dearer. */
export function patchChildren(parent: Element, wanted: readonly Element[]): void {
  const keep = new Set(wanted);
  for (const child of [...parent.children]) if (!keep.has(child)) child.remove();
  let next = parent.firstElementChild;
  for (const element of wanted) {
    if (element === next) next = next.nextElementSibling;
    else parent.insertBefore(element, next);
  }
}

/** Gives `parent` the nodes of `source`: where the one at the same place is equal, it stays. */
export function takeNodes(parent: Element, source: Element): void {
  let at = parent.firstChild;
  for (const node of [...source.childNodes]) {
    const next = at?.nextSibling ?? null;
    if (at === null) parent.append(node);
    else if (!at.isEqualNode(node)) at.replaceWith(node);
    at = next;
  }
  while (at !== null) {
    const next = at.nextSibling;
    at.remove();
    at = next;
  }
}
