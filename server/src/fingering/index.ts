// The fingering engine: search, alternatives, windows, top tempo, recheck.
export { makeTables, type TableCache } from './cache.ts';
export { explainDifference, type TermCost } from './explain.ts';
export { type Refutation, recheck } from './recheck.ts';
export { search, startSearch } from './search.ts';
export type * from './types.ts';
