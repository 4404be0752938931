// Names of the files in a zip archive, read from its central directory.
import { readFileSync } from 'node:fs';

const endMark = 0x06054b50;
const entryMark = 0x02014b50;

/** Throws on what is no zip archive. */
export function namesInZip(file) {
  const bytes = readFileSync(file);
  const end = bytes.lastIndexOf(Buffer.from(Uint32Array.of(endMark).buffer));
  if (end < 0) throw new Error(`${file} is no zip archive.`);
  const names = [];
  for (let at = bytes.readUInt32LE(end + 16), left = bytes.readUInt16LE(end + 10); left > 0; left--) {
    if (bytes.readUInt32LE(at) !== entryMark) throw new Error(`${file} has no entry at ${at}.`);
    const [name, extra, comment] = [28, 30, 32].map((field) => bytes.readUInt16LE(at + field));
    names.push(bytes.toString('utf8', at + 46, at + 46 + name));
    at += 46 + name + extra + comment;
  }
  return names;
}
