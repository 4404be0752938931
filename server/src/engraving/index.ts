// All that is known of the engraving library, behind names of our own.
export {
  drawTune,
  type EngraveOptions,
  type KeptSystem,
  keptByKey,
  type ParsedTune,
  parse,
  type SheetItem,
  type SheetSystem,
  type SheetWords,
} from './engrave.ts';
export { type Guarded, guarded } from './guard.ts';
export { sourceOf, sourceSpan } from './offsets.ts';
export { type Measure, type PictureNode, plainText, RecordedText, type TextSize, wordsIn } from './picture.ts';
export { prepare } from './prepare.ts';
export { type Sounding, toSceneNotes, toScenePlayback } from './scene.ts';
export type * from './types.ts';
