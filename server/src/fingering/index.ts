// The fingering engine: search, alternatives, windows, top tempo.
export { makeTables, type TableCache } from './cache.ts';
export { search, startSearch } from './search.ts';
export type * from './types.ts';
