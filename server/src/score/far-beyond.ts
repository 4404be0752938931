// When a tempo that could be played is worth telling.

/** From this share of the tempo asked for on, one that can be played in comfort tells a player nothing. */
const farBeyond = 2;

/** Whether a comfortable tempo lies far beyond the one asked for, both in beats a minute; not if either is unknown. */
export function isFarBeyond(comfortable: number | null, asked: number | null): boolean {
  return asked !== null && comfortable !== null && comfortable >= farBeyond * asked;
}
