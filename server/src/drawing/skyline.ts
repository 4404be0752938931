// How high and how low the ink of a staff reaches, and how it grows as marks are put on.
import type { StaffInk } from '../engraving/types.ts';

export interface Skyline {
  /** Least y of ink between two x, or `fallback` if there is none. */
  over(from: number, to: number, fallback: number): number;
  /** Puts ink with its upper edge at `y`. */
  raise(from: number, to: number, y: number): void;
}

const columns = (from: number, to: number): [number, number] => [Math.max(0, Math.floor(from)), Math.ceil(to)];

/** A skyline that starts as the ink of the staff. */
export function skylineOf(ink: StaffInk): Skyline {
  const tops = [...ink.top];
  return {
    over(from, to, fallback) {
      const [first, last] = columns(from, to);
      let best = fallback;
      for (let x = first; x <= last; x++) {
        const y = tops[x];
        if (y != null && y < best) best = y;
      }
      return best;
    },
    raise(from, to, y) {
      const [first, last] = columns(from, to);
      for (let x = first; x <= last; x++) {
        const top = tops[x];
        if (top == null || y < top) tops[x] = y;
      }
    },
  };
}

/** Greatest y of ink in the whole staff, or `fallback`. */
export const lowestInk = (ink: StaffInk, fallback: number): number =>
  ink.bottom.reduce((low: number, y) => (y != null && y > low ? y : low), fallback);

/** Least y of ink in the whole staff, or `fallback`. */
export const highestInk = (ink: StaffInk, fallback: number): number =>
  ink.top.reduce((high: number, y) => (y != null && y < high ? y : high), fallback);
