// Bytes of a tune file to text: UTF-8 as the standard says, Latin-1 where old files need it, and a plain word about what is no text.

/** The text without a byte-order mark, and a warning for the player or null. */
export interface Decoded {
  readonly text: string;
  readonly warning: string | null;
}

/** Decodes a tune file. Throws with a message for the player if it is UTF-16 or not text at all. */
export function decodeText(bytes: Uint8Array): Decoded {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    throw new Error('this file is UTF-16; save it as UTF-8.');
  }
  const nul = bytes.indexOf(0);
  if (nul >= 0) throw new Error(`this is not a text file (a zero byte in line ${lineOf(bytes, nul)}).`);
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), warning: null };
  } catch {
    const at = firstBadByte(bytes);
    return {
      text: new TextDecoder('windows-1252').decode(bytes),
      warning: `line ${lineOf(bytes, at)} is not UTF-8, so the file is read as Latin-1; save it as UTF-8.`,
    };
  }
}

function lineOf(bytes: Uint8Array, at: number): number {
  let line = 1;
  for (let i = 0; i < at; i++) if (bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10)) line++;
  return line;
}

/** Where decoding as UTF-8 first fails, by halving: a stream decoder accepts every good prefix. */
function firstBadByte(bytes: Uint8Array): number {
  let good = 0;
  let bad = bytes.length;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (isGoodPrefix(bytes.subarray(0, middle))) good = middle;
    else bad = middle;
  }
  return good;
}

function isGoodPrefix(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}
