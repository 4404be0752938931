// The reader of scores: what a tune's text says as timed notes, and how it is played out.

export type { ClefValue, KeyedValue, KeyValue, MeterValue, PartOrder, VoiceProperties } from '../abc/tree/fields.ts';
export { fifthsOf, letterIndex, signatureOf } from './key.ts';
export { barLength, beatOf, defaultUnit, isCompound } from './meter.ts';
export { playOut } from './play-out.ts';
export { readScore } from './read/read-score.ts';
export type * from './types.ts';
