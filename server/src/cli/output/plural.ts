// Counting in words.

/** `1 error`, `2 errors`. */
export const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
