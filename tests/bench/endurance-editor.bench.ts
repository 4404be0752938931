// The same typing in a real editor: what page, extension host and server have in use while it is replayed in the embedded workbench.
// Arguments: seed (1), keys (2400), bars (64).
import { spawn } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { type Memory, told, verdict } from '../support/endurance/memory.ts';
import { type Key, tuneOf, typing } from '../support/endurance/typist.ts';
import { seeded } from '../support/random.ts';

const [seed = 1, keys = 2400, bars = 64] = process.argv.slice(2).map(Number);
/** Eight keys come at once before the player looks up; the text is saved after eighty. */
const [burst, saved] = [8, 80];
const samples = 24;
const root = join(import.meta.dirname, '../..');
const folder = join(root, '.cache/endurance');
const processes = ['page', 'host', 'server'] as const;

type Sample = Readonly<Record<(typeof processes)[number], Memory>> & { readonly keys: number };

/** The folder in which the workbench is opened. */
function layOut(): void {
  const { text, body } = tuneOf(bars);
  const player = typing(seeded(seed), body, text.length);
  const pressed: readonly Key[] = Array.from({ length: keys }, () => player.next().value);
  const sampled = burst * Math.max(1, Math.floor(keys / burst / samples));
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'tune.abc'), text);
  writeFileSync(join(folder, 'replay.json'), JSON.stringify({ keys: pressed, burst, sampled, saved }));
}

/** Tells each sample as it comes; all of them when the replay has ended. */
async function replayed(): Promise<readonly Sample[]> {
  const driver = spawn(process.execPath, [join(root, 'tests/workbench/endurance.mjs'), folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  const come: Sample[] = [];
  for await (const line of createInterface({ input: driver.stdout })) {
    come.push(JSON.parse(line));
    tell(come.at(-1)!);
  }
  return come;
}

function tell(sample: Sample): void {
  console.log(`${sample.keys} keys`);
  for (const name of processes) console.log(`  ${name} ${told(sample[name])}`);
}

layOut();
const all = await replayed();
if (all.length >= 3) {
  console.log(`seed ${seed}, ${bars} bars, ${keys} keys in the embedded workbench, whose own objects are counted with page and host`);
  for (const name of processes) {
    const along = all.map((each) => each[name]);
    console.log(`  ${verdict(name, along)}`);
  }
}
