// A fingering task as an integer program in the LP format that glpsol reads: one unit flows through the ways to take the notes as they sound, and a written note is taken alike each time.
import {
  type Before,
  joinCost,
  type Stand,
  standAfter,
  standAtFirst,
  type Taking,
  takingsOf,
  timeAfter,
  wayCost,
} from '../../server/src/fingering/recheck-ways.ts';
import type { Task } from '../../server/src/fingering/types.ts';
import type { Sounding } from './brute-force.ts';
import { soundingOf } from './random-task.ts';

/** A stand that flow passes through: its name, which taking of its note it is, and all open notes since the hand last stopped one. */
interface Node {
  readonly name: string;
  readonly taking: number;
  readonly stand: Stand;
  readonly opens: number;
}

/** The program's text. Costs are integers, so its optimum is the cost of the best fingering; it has none where no hand plays the task. */
export function linearProgram(task: Task): string {
  const sounding = soundingOf(task);
  const takings = task.notes.map((_, note) => takingsOf(task, note));
  const objective = takings.flatMap((own, note) => own.map(({ cost }, at) => `+ ${cost} y${note}_${at}`));
  const rows = takings.map((own, note) => `${own.map((_, at) => `+ y${note}_${at}`).join('\n')}\n+ none = 1`);
  const firstOf = (note: number): readonly Node[] =>
    takings[note]!.map((taking, at) => ({
      name: `s0_${at}`,
      taking: at,
      stand: standAtFirst(taking),
      opens: Number(taking.hand === null),
    }));
  let layer = sounding.order.length === 0 ? [] : firstOf(sounding.order[0]!);
  // The first stands are the choices of the first note themselves.
  let into: ReadonlyMap<string, readonly string[]> = new Map(layer.map(({ name, taking }) => [name, [`y${sounding.order[0]}_${taking}`]]));
  for (let at = 1; at < sounding.order.length; at++) {
    const step = stepOf(task, sounding, at, layer, takings[sounding.order[at]!]!);
    objective.push(...step.costs);
    for (const { name } of layer) rows.push(`${terms('+', into.get(name)!)}\n${terms('-', step.out.get(name) ?? [])} = 0`);
    for (const taking of takings[sounding.order[at]!]!.keys()) {
      const flows = step.nodes.filter((node) => node.taking === taking).flatMap(({ name }) => step.into.get(name)!);
      rows.push(`${terms('+', flows)}\n- y${sounding.order[at]}_${taking} = 0`);
    }
    [layer, into] = [step.nodes, step.into];
  }
  const binaries = takings.flatMap((own, note) => own.map((_, at) => `y${note}_${at}`));
  return [
    `Minimize\ncost: + 0 none\n${objective.join('\n')}`,
    `Subject To\n${rows.map((row, i) => `r${i}: ${row}`).join('\n')}`,
    'Bounds\nnone = 0',
    `Binaries\n${binaries.join('\n')}`,
    'End\n',
  ].join('\n');
}

const terms = (sign: '+' | '-', names: readonly string[]): string => names.map((name) => `${sign} ${name}`).join('\n');

interface Step {
  readonly nodes: readonly Node[];
  readonly costs: readonly string[];
  readonly into: ReadonlyMap<string, readonly string[]>;
  readonly out: ReadonlyMap<string, readonly string[]>;
}

/** Flows from the stands before the note at `at` of the sounding order to its own; what they cost beyond the notes themselves. */
function stepOf(task: Task, sounding: Sounding, at: number, before: readonly Node[], takings: readonly Taking[]): Step {
  const [nodes, costs] = [new Map<string, Node>(), [] as string[]];
  const [into, out] = [new Map<string, string[]>(), new Map<string, string[]>()];
  const note = sounding.order[at]!;
  const back = backFrom(task, sounding, at);
  for (const from of before) {
    for (const [taking, one] of takings.entries()) {
      const stand = standAfter(from.stand, one);
      const join = joinCost(task, from.stand, stand, note, back);
      const way = wayCost(task, from.stand.hand, stand.hand, timeAfter(task, back, from.stand.free));
      if (join === null || way === null) continue;
      const opens = one.hand === null ? from.opens + 1 : 0;
      const key = `${taking} ${stand.hand?.kind}${stand.hand?.place} ${opens}`;
      const node = nodes.get(key) ?? { name: `s${at}_${nodes.size}`, taking, stand, opens };
      nodes.set(key, node);
      const flow = `f${from.name}_${node.name}`;
      // A join that sounds again, and a way of the hand over the same notes, are paid once.
      const cost = (isAgain(sounding, at - 1, at) ? 0 : join) + (isAgain(sounding, at - 1 - from.opens, at) ? 0 : way);
      if (cost !== 0) costs.push(`+ ${cost} ${flow}`);
      into.set(node.name, [...(into.get(node.name) ?? []), flow]);
      out.set(from.name, [...(out.get(from.name) ?? []), flow]);
    }
  }
  return { nodes: [...nodes.values()], costs, into, out };
}

function backFrom(task: Task, { order, steps }: Sounding, at: number): readonly Before[] {
  return Array.from({ length: at }, (_, i) => ({ step: steps[at - 1 - i]!, duration: task.notes[order[at - 1 - i]!]!.duration }));
}

/** Whether the notes from place `first` to `last` of the sounding order have sounded in a row before. */
function isAgain({ order }: Sounding, first: number, last: number): boolean {
  const row = order.slice(first, last + 1).join('>');
  return order.some((_, end) => end < last && end >= last - first && order.slice(end - (last - first), end + 1).join('>') === row);
}
