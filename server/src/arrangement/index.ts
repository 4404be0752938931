// Reading tunes as bass parts: the layer's public names.
export { thumbFloor } from '../bass/index.ts';
export { readChordName } from '../score/chord-name.ts';
export { accentEdits } from './accents.ts';
export { type Arranged, type ArrangeRequest, type ArrangeTools, arrange, type NoteReport } from './arrange.ts';
export { slugFor } from './arranged-header.ts';
export { type Attack, attackRuns, comfortWindow, hardestPlucking, pluckingPace, second } from './attacks.ts';
export { type Backing, backing } from './backing.ts';
export { chordsOf } from './chord-names.ts';
export { type Change, compareTunes, pairVersions } from './compare.ts';
export { keyText, meterText } from './compose.ts';
export {
  type ConfigFile,
  type ConfigLayer,
  type ConfigProblem,
  defaultConfig,
  emptyConfigFile,
  type HandoutConfig,
  type Level,
  readConfigFile,
  resolveConfig,
} from './config.ts';
export { declarationKeys, headerProblems, readDeclarations } from './declarations.ts';
export { type Difference, differences, toldByBar } from './differences.ts';
export { type HammerSuggestion, hammerSuggestions } from './hammers.ts';
export { type InkOptions, inkEdits } from './ink.ts';
export { octaveEdits } from './octave-edits.ts';
export { readPart } from './part.ts';
export { type PinnedPlace, pinEdits, unpinEdits } from './pin-edits.ts';
export { fingerMarks, pinOf } from './pins.ts';
export { planPlace, toPlan } from './plan.ts';
export { type KeyRank, registersOf } from './registers.ts';
export { type BarPlace, barPlaces, isShort, type Section, sectionsOf } from './sections.ts';
export { readSetting, type SettingKey, type SetupPatch, settingKeys } from './settings.ts';
export { settlePins } from './settle-pins.ts';
export { clefAt, soundingPitch } from './sounding.ts';
export { sourceTag, sourceTagEdits } from './source-tag.ts';
export { type PlansUnderWay, partStage, planStage, scoreStage, startPlans, treeStage } from './stages.ts';
export { settleSuggestions, suggestChords, suggestionEdits } from './suggest-chords.ts';
export { keepingSymbolPlaces } from './symbol-places.ts';
export { measuringTempo, toTask } from './task.ts';
export { type PinFate, type Transposition, transposeEdits } from './transpose.ts';
export type * from './types.ts';
export { type PartUpdate, type Updated, updateVersion } from './update.ts';
export {
  type Drift,
  driftOf,
  madeDigests,
  namedSections,
  type PartState,
  regionOf,
  sourceDigests,
  sourceOf,
  startOf,
  statesOf,
  versionOf,
} from './versions.ts';
export { whyDearer } from './why-dearer.ts';
