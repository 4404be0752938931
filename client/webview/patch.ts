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

function patchAttributes(old: Element, wanted: Element): void {
  for (const { name } of [...old.attributes]) if (!wanted.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of wanted.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
}

/** Makes `old` equal to `wanted`, an element of the same name, and takes from it only what is new. */
export function patchTree(old: Element, wanted: Element): void {
  patchAttributes(old, wanted);
  let at = old.firstChild;
  for (const child of [...wanted.childNodes]) {
    const next = at?.nextSibling ?? null;
    if (at === null) old.append(child);
    else if (at instanceof Element && child instanceof Element && at.nodeName === child.nodeName) {
      if (!at.isEqualNode(child)) patchTree(at, child);
    } else if (!at.isEqualNode(child)) at.replaceWith(child);
    at = next;
  }
  while (at !== null) {
    const next = at.nextSibling;
    at.remove();
    at = next;
  }
}
