// Where a stop lies on the string.

/** Distance from the nut in mm of a stop (semitones above the open string) on a string of `mensur` mm: L(1 - 2^(-n/12)), equal temperament. Negative below the nut (C extension). */
export function stopMm(mensur: number, stop: number): number {
  return mensur * (1 - 2 ** (-stop / 12));
}

/** Way in mm along the string between two stops. */
export function spanMm(mensur: number, from: number, to: number): number {
  return Math.abs(stopMm(mensur, to) - stopMm(mensur, from));
}

/** Frequency in Hz of a MIDI number at A4 = 440. */
export function frequency(midi: number): number {
  return 440 * 2 ** ((midi - 69) / 12);
}
