// One slip, one finding: tokens of the demo's bass parts are changed one at a time, and what is found is counted. Arguments: mutations (560), seed (1).
import { seeded } from '../support/random.ts';
import { excuse, type Slipped, slipped } from '../support/slips.ts';

const count = Number(process.argv[2] ?? 560);
const all = slipped(count, seeded(Number(process.argv[3] ?? 1)));
const told = ({ codes }: Slipped): string => codes.join(' + ') || '-';

function grouped(slips: readonly Slipped[], by: (one: Slipped) => string): readonly (readonly [string, readonly Slipped[]])[] {
  return [...new Set(slips.map(by))].map((key) => [key, slips.filter((one) => by(one) === key)]);
}

for (const [name, own] of grouped(all, ({ slip }) => slip)) {
  console.log(`${name.padEnd(32)} one ${own.filter(({ codes }) => codes.length === 1).length} of ${own.length}`);
  const groups = grouped(own, told).toSorted((a, b) => b[1].length - a[1].length);
  for (const [codes, times] of groups.slice(0, 6)) console.log(`    ${String(times.length).padStart(3)}  ${codes}`);
}
const others = all.filter(({ codes }) => codes.length !== 1);
for (const one of others) console.log(`${one.slip}: ${told(one)}: ${one.line} (${excuse(one) ?? 'NOT EXCUSED'})`);
console.log(`${all.length} mutations: ${all.length - others.length} gave one finding, ${others.length} another number`);
process.exitCode = others.every((one) => excuse(one) !== null) ? 0 : 1;
