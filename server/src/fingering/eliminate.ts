// Min-plus variable elimination over a small graph: exact least sum of factors, and the choice that has it.
import { never } from './rules.ts';
import type { Work } from './work.ts';

/** Cost by the values of some variables; `cells` runs with the last variable fastest. */
export interface Factor {
  readonly variables: readonly number[];
  readonly cells: Int32Array;
}

/** The most cells a factor may have before the elimination gives up. */
const cellsMost = 4_000_000;
/** Cells of a factor made in one piece of work. */
const cellsAtOnce = 10_000;

/** Least sum of all factors and a value of each variable that has it; null if every choice is impossible, 'too-much' if it would take too large a table. */
export function* eliminate(
  sizes: readonly number[],
  factors: readonly Factor[],
): Work<{ cost: number; values: readonly number[] } | null | 'too-much'> {
  if (sizes.includes(0)) return null;
  let left = [...factors];
  const steps: { variable: number; joined: Factor }[] = [];
  const waiting = new Set(sizes.keys());
  while (waiting.size > 0) {
    const variable = cheapest(sizes, left, waiting);
    const touching = left.filter((factor) => factor.variables.includes(variable));
    const joined = yield* join(sizes, touching, variable);
    if (joined === null) return 'too-much';
    left = [...left.filter((factor) => !touching.includes(factor)), leastOver(joined, sizes[variable]!)];
    steps.push({ variable, joined });
    waiting.delete(variable);
  }
  const cost = left.reduce((sum, { cells }) => sum + cells[0]!, 0);
  return cost >= never ? null : { cost, values: choose(sizes, steps.reverse()) };
}

/** The variable whose elimination makes the smallest table. */
function cheapest(sizes: readonly number[], factors: readonly Factor[], waiting: ReadonlySet<number>): number {
  const sizeOf = (variable: number): number =>
    neighbours(factors, variable).reduce((product, other) => product * sizes[other]!, sizes[variable]!);
  return [...waiting].reduce((best, one) => (sizeOf(one) < sizeOf(best) ? one : best));
}

function neighbours(factors: readonly Factor[], variable: number): readonly number[] {
  const touching = factors.filter((factor) => factor.variables.includes(variable));
  return [...new Set(touching.flatMap((factor) => factor.variables))].filter((other) => other !== variable).sort((a, b) => a - b);
}

/** Sum of factors over all their variables, `last` the fastest; null if too large. */
function* join(sizes: readonly number[], factors: readonly Factor[], last: number): Work<Factor | null> {
  const variables = [...neighbours(factors, last), last];
  const total = variables.reduce((product, variable) => product * sizes[variable]!, 1);
  if (total > cellsMost) return null;
  const cells = new Int32Array(total);
  const values = new Int32Array(variables.length);
  const strides = factors.map((factor) => stridesIn(sizes, factor, variables));
  for (let at = 0; at < total; at++) {
    if (at % cellsAtOnce === 0) yield cellsAtOnce;
    let sum = 0;
    for (let f = 0; f < factors.length && sum < never; f++) {
      const stride = strides[f]!;
      let index = 0;
      for (let v = 0; v < values.length; v++) index += stride[v]! * values[v]!;
      sum += factors[f]!.cells[index]!;
    }
    cells[at] = Math.min(never, sum);
    for (let v = values.length - 1; v >= 0 && ++values[v]! === sizes[variables[v]!]!; v--) values[v] = 0;
  }
  return { variables, cells };
}

/** For each of `variables` how far one value moves in the factor's cells. */
function stridesIn(sizes: readonly number[], factor: Factor, variables: readonly number[]): readonly number[] {
  return variables.map((variable) => {
    const place = factor.variables.indexOf(variable);
    return place < 0 ? 0 : factor.variables.slice(place + 1).reduce((product, other) => product * sizes[other]!, 1);
  });
}

function leastOver({ variables, cells }: Factor, size: number): Factor {
  const least = new Int32Array(cells.length / Math.max(1, size)).fill(never);
  for (let at = 0; at < cells.length; at++) {
    const row = Math.floor(at / size);
    if (cells[at]! < least[row]!) least[row] = cells[at]!;
  }
  return { variables: variables.slice(0, -1), cells: least };
}

/** Values in the reverse order of elimination: each variable takes its first least value, those after it being known. */
function choose(sizes: readonly number[], steps: readonly { variable: number; joined: Factor }[]): readonly number[] {
  const values = new Array<number>(sizes.length).fill(0);
  for (const { variable, joined } of steps) {
    const base = joined.variables.slice(0, -1).reduce((index, other) => index * sizes[other]! + values[other]!, 0) * sizes[variable]!;
    const row = joined.cells.subarray(base, base + sizes[variable]!);
    values[variable] = row.reduce((best, cost, i) => (cost < row[best]! ? i : best), 0);
  }
  return values;
}
