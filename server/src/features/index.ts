// All editor features. Each asks for the earliest stage that serves it and gives plain data with offsets.
import { pinCompletions } from './completion/pins.ts';
import { wordCompletions } from './completion/words.ts';
import { folding } from './folding.ts';
import { format } from './format.ts';
import { highlights } from './highlights.ts';
import { handHighlights } from './highlights-hand.ts';
import { pitchHover } from './hover-pitch.ts';
import { placeHover } from './hover-place.ts';
import { textHover } from './hover-text.ts';
import { selection } from './selection.ts';
import { symbols } from './symbols.ts';
import { tokens } from './tokens.ts';

export const features = {
  wordCompletions,
  pinCompletions,
  textHover,
  pitchHover,
  placeHover,
  symbols,
  folding,
  selection,
  highlights,
  handHighlights,
  tokens,
  format,
} as const;

export type { CompletionItem, Completions } from './completion/item.ts';
export type { Feature, FeatureNeed, FeatureSettings, TextView, ViewOf } from './feature.ts';
export { defaultFeatureSettings } from './feature.ts';
export type { Fold } from './folding.ts';
export type { Highlight } from './highlights.ts';
export type { Hover } from './hover.ts';
export { type QuickFix, quickFixes } from './quick-fixes.ts';
export { type PlaceChoice, placeChoices } from './shared/choices.ts';
export { pinText } from './shared/places.ts';
export { type PlannedNote, plannedNote, plannedNoteAt } from './shared/plan-notes.ts';
export type { SymbolNode } from './symbols.ts';
export { type Token, type TokenType, tokenTypes } from './tokens.ts';
