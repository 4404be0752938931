// Bars as a player names them.

/** Bars by the numbers a player gives them, both included. */
export interface BarRange {
  readonly first: number;
  readonly last: number;
}

/** `bar 3`, `bars 3-4`. */
export const barsName = ({ first, last }: BarRange): string => (first === last ? `bar ${first}` : `bars ${first}-${last}`);
