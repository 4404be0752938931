// Natural harmonics: where to touch and what sounds. Part n of the string sounds n times the open frequency; a node k/n lies at stop -12 log2(1 - k/n).

/** A node: the part it belongs to, its exact stop, and the semitones it sounds above the open string (rounded). */
export interface Node {
  readonly part: number;
  readonly stop: number;
  readonly sounds: number;
}

const highestPart = 6;

/** All nodes of parts 2 to 6 in the order of their stops; a fraction not in lowest terms belongs to a lower part and is left out. */
export const nodes: readonly Node[] = Array.from({ length: highestPart - 1 }, (_, i) => i + 2)
  .flatMap((part) =>
    Array.from({ length: part - 1 }, (_, i) => i + 1)
      .filter((k) => common(k, part) === 1)
      .map((k) => ({ part, stop: -12 * Math.log2(1 - k / part), sounds: Math.round(12 * Math.log2(part)) })),
  )
  .sort((a, b) => a.stop - b.stop);

/** Nodes that sound `semitones` above the open string, up to stop `top`; where one of them is also the stop of that pitch it alone is given. */
export function nodesFor(semitones: number, top: number): readonly Node[] {
  const sounding = nodes.filter((node) => node.sounds === semitones && node.stop <= top + 0.5);
  const agreeing = sounding.filter((node) => Math.round(node.stop) === semitones);
  return agreeing.length > 0 ? agreeing : sounding;
}

function common(a: number, b: number): number {
  return b === 0 ? a : common(b, a % b);
}
