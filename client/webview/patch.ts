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
