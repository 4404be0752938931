// Fuzzing of the merge driver: random pairs of edits in different bars of the demo book. Arguments: pairs (2000), seed (1).
import { faultOfMerge } from '../support/merging.ts';
import { seeded } from '../support/random.ts';

const count = Number(process.argv[2] ?? 2000);
const random = seeded(Number(process.argv[3] ?? 1));
const faults = Array.from({ length: count }, () => faultOfMerge(random)).filter((fault) => fault !== null);
for (const fault of faults.slice(0, 5)) console.log(fault);
console.log(`${count} merges: ${faults.length} wrong`);
process.exitCode = faults.length === 0 ? 0 : 1;
