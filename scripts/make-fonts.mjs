// Makes media/fonts from the open fonts they come from. Run once, when the fonts or the characters kept change:
//   npm install --no-save --ignore-scripts source-serif@4.5.1 source-sans@3.52.0 @fontsource/noto-music@5.3.0 subset-font@2.9.0
//   node scripts/make-fonts.mjs && npm ci --ignore-scripts
// Subsets are modified versions, and the name "Source" is reserved by their licence (OFL 1.1): they get names of ours. The names
// hold no digit, because a family name with a word that begins with a digit is invalid CSS without quotes.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { root } from './support/steps.mjs';

const require = createRequire(import.meta.url);
const subsetFont = require('subset-font');

const range = (from, to) => Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('');
const ascii = range(0x20, 0x7e);
const punctuation = `${range(0x2010, 0x2027)}${range(0x2030, 0x203a)}€№™−×÷½¼¾⅓⅔⅛⅜⅝⅞←↑→↓`;
/** Latin with its extensions A and B and additions (Vietnamese too), Greek, Cyrillic, marks. */
const text =
  ascii + range(0xa0, 0x24f) + range(0x2b0, 0x36f) + range(0x370, 0x3ff) + range(0x400, 0x52f) + range(0x1e00, 0x1eff) + punctuation;
const digits = `${ascii}°–—’−×→${range(0xa0, 0xff)}`;

const fonts = [
  { file: 'serif', family: 'Bullfiddle Serif', style: 'Regular', from: 'source-serif/TTF/SourceSerif4-Regular.ttf', keep: text },
  { file: 'serif-italic', family: 'Bullfiddle Serif', style: 'Italic', from: 'source-serif/TTF/SourceSerif4-It.ttf', keep: text },
  { file: 'serif-bold', family: 'Bullfiddle Serif', style: 'Semibold', from: 'source-serif/TTF/SourceSerif4-Semibold.ttf', keep: text },
  { file: 'digits', family: 'Bullfiddle Sans', style: 'Semibold', from: 'source-sans/TTF/SourceSans3-Semibold.ttf', keep: digits },
  {
    file: 'accidentals',
    family: 'Bullfiddle Accidentals',
    style: 'Regular',
    from: '@fontsource/noto-music/files/noto-music-music-400-normal.woff2',
    keep: '♭♮♯',
  },
];

mkdirSync(join(root, 'media/fonts'), { recursive: true });
for (const { file, family, style, from, keep } of fonts) {
  const subset = await subsetFont(readFileSync(join(root, 'node_modules', from)), keep, { targetFormat: 'truetype' });
  const named = renamed(subset, family, style);
  // Not packed: the font reader would inflate a table for every glyph, and the extension's package is compressed anyway.
  writeFileSync(join(root, 'media/fonts', `${file}.ttf`), named);
  console.log(`media/fonts/${file}.ttf ${(named.length / 1024).toFixed(0)} kB`);
}

/** Numbers as 16-bit words, high byte first. */
function words(numbers) {
  return Buffer.from(numbers.flatMap((n) => [(n >> 8) & 255, n & 255]));
}

/** The font with its name table replaced: family, style, full and PostScript name, and the licence's address. */
function renamed(font, family, style) {
  const tables = readTables(font).map((table) => (table.tag === 'name' ? { ...table, data: nameTable(family, style) } : table));
  return writeTables(font.readUInt32BE(0), tables);
}

function readTables(font) {
  return Array.from({ length: font.readUInt16BE(4) }, (_, i) => {
    const at = 12 + 16 * i;
    const from = font.readUInt32BE(at + 8);
    return { tag: font.toString('latin1', at, at + 4), data: font.subarray(from, from + font.readUInt32BE(at + 12)) };
  });
}

function nameTable(family, style) {
  const names = [
    [1, style === 'Regular' || style === 'Italic' ? family : `${family} ${style}`],
    [2, style === 'Italic' ? 'Italic' : 'Regular'],
    [4, `${family} ${style}`],
    [6, `${family.replaceAll(' ', '')}-${style}`],
    [13, 'SIL Open Font License 1.1; a subset under a name of its own'],
    [14, 'https://openfontlicense.org'],
  ].map(([id, value]) => ({ id, value: Buffer.from(value, 'utf16le').swap16() }));
  const head = Buffer.alloc(6 + 12 * names.length);
  head.writeUInt16BE(names.length, 2);
  head.writeUInt16BE(head.length, 4);
  let offset = 0;
  names.forEach(({ id, value }, i) => {
    // Windows, Unicode, US English.
    words([3, 1, 0x409, id, value.length, offset]).copy(head, 6 + 12 * i);
    offset += value.length;
  });
  return Buffer.concat([head, ...names.map(({ value }) => value)]);
}

function writeTables(version, tables) {
  const head = Buffer.alloc(12 + 16 * tables.length);
  const power = Math.floor(Math.log2(tables.length));
  head.writeUInt32BE(version, 0);
  words([tables.length, 16 * 2 ** power, power, 16 * (tables.length - 2 ** power)]).copy(head, 4);
  const parts = [head];
  let at = head.length;
  let adjustment = 0;
  tables.forEach(({ tag, data }, i) => {
    if (tag === 'head') {
      // The whole font's checksum stands here; it and the table's are made as if it were 0.
      adjustment = at + 8;
      data.writeUInt32BE(0, 8);
    }
    head.write(tag, 12 + 16 * i, 'latin1');
    words([checksum(data), at, data.length].flatMap((n) => [n >>> 16, n & 0xffff])).copy(head, 16 + 16 * i);
    const padded = Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)]);
    parts.push(padded);
    at += padded.length;
  });
  const font = Buffer.concat(parts);
  font.writeUInt32BE((0xb1b0afba - checksum(font)) >>> 0, adjustment);
  return font;
}

function checksum(data) {
  const padded = Buffer.concat([data, Buffer.alloc((4 - (data.length % 4)) % 4)]);
  let sum = 0;
  for (let i = 0; i < padded.length; i += 4) sum = (sum + padded.readUInt32BE(i)) >>> 0;
  return sum;
}
