// Text to UTF-8 bytes, in plain JavaScript: this layer knows neither Node nor the DOM.

/** The bytes of `text`; half a surrogate pair becomes the replacement character. */
export function utf8(text: string): Uint8Array {
  const bytes: number[] = [];
  for (const letter of text) {
    const point = letter.codePointAt(0)!;
    const code = point >= 0xd800 && point < 0xe000 ? 0xfffd : point;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), tail(code));
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), tail(code >> 6), tail(code));
    else bytes.push(0xf0 | (code >> 18), tail(code >> 12), tail(code >> 6), tail(code));
  }
  return Uint8Array.from(bytes);
}

const tail = (code: number): number => 0x80 | (code & 0x3f);
