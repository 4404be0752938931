// Text put into XML or HTML: what has a meaning there is escaped, what XML 1.0 forbids is left out.

/** Whether XML 1.0 allows a character (section 2.2); half surrogate pairs and most control characters are not. */
function allowed(code: number): boolean {
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd;
  return !(code >= 0xd800 && code < 0xe000) && code !== 0xfffe && code !== 0xffff;
}

/** Safe in content and in quoted attributes. */
export const escaped = (text: string): string =>
  [...text]
    .filter((letter) => allowed(letter.codePointAt(0)!))
    .join('')
    .replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** An element; children are XML already, null and '' are left out. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number | null>>,
  ...children: readonly (string | null)[]
): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== null)
    .map(([key, value]) => ` ${key}="${escaped(String(value))}"`)
    .join('');
  const inside = children.filter((child) => child !== null && child !== '').join('');
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** An element that holds text. */
export const textElement = (name: string, text: string | number): string => `<${name}>${escaped(String(text))}</${name}>`;
