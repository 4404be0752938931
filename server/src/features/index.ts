// All editor features. Each asks for the earliest stage that serves it and gives plain data with offsets.
import { closedBar } from './closed-bar.ts';
import { pinCompletions } from './completion/pins.ts';
import { wordCompletions } from './completion/words.ts';
import { enterNote } from './enter-note.ts';
import { folding } from './folding.ts';
import { format } from './format.ts';
import { highlights } from './highlights.ts';
import { handHighlights } from './highlights-hand.ts';
import { barHints } from './hints-bar.ts';
import { placeHints } from './hints-places.ts';
import { pitchHover } from './hover-pitch.ts';
import { placeHover } from './hover-place.ts';
import { textHover } from './hover-text.ts';
import { lens } from './lens.ts';
import { links } from './links.ts';
import { moveByBar } from './move-by-bar.ts';
import { definition, references } from './references.ts';
import { rename, renameTarget } from './rename.ts';
import { selection } from './selection.ts';
import { signature } from './signature.ts';
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
  closedBar,
  signature,
  barHints,
  placeHints,
  lens,
  definition,
  references,
  renameTarget,
  rename,
  links,
  enterNote,
  moveByBar,
} as const;

export { type VersionEdits, versionEdits } from './actions/arrange.ts';
export { type Action, type AnyAction, actions, type Offer } from './actions/index.ts';
export type { CompletionItem, Completions } from './completion/item.ts';
export type { EnteredNote } from './enter-note.ts';
export type { Feature, FeatureNeed, FeatureSettings, TextView, ViewOf } from './feature.ts';
export { defaultFeatureSettings } from './feature.ts';
export type { Fold } from './folding.ts';
export { headerOf, matchesSearch, type TuneHeader } from './headers.ts';
export type { Highlight } from './highlights.ts';
export type { Hint } from './hint.ts';
export type { Hover } from './hover.ts';
export type { Lens } from './lens.ts';
export type { Link } from './links.ts';
export type { NameKind, NamePlace } from './names.ts';
export { cleanPasted, looksLikeTune } from './paste.ts';
export { type QuickFix, quickFixes } from './quick-fixes.ts';
export type { Renaming } from './rename.ts';
export { type PlaceChoice, placeChoices } from './shared/choices.ts';
export { pinText } from './shared/places.ts';
export { type PlannedNote, plannedNote, plannedNoteAt } from './shared/plan-notes.ts';
export type { Signature } from './signature.ts';
export type { SymbolNode } from './symbols.ts';
export { type Token, type TokenType, tokenTypes } from './tokens.ts';
