// The usual ways out of a passage that no hand plays, as fixes: let go of a pin, take a slur or a slide out.
import type { PartNote, PlanStage } from '../../arrangement/types.ts';
import type { Fix } from '../check.ts';
import { removals, slurRemoved } from './marks.ts';
import { slursOver } from './parts.ts';
import type { Passage } from './windows.ts';

const fingerNames = ['0', '1', '2', '3', '4', '5', 'thumb'];
const stringNames = ['sulG', 'sulD', 'sulA', 'sulE', 'sulB', 'sulC', 'sulF'];

export const fingersLetGo = (notes: readonly PartNote[]): readonly Fix[] => removals(notes, fingerNames);
export const stringsLetGo = (notes: readonly PartNote[]): readonly Fix[] => removals(notes, stringNames);
export const slidesOut = (notes: readonly PartNote[]): readonly Fix[] => removals(notes, ['slide']);
export const harmonicsOut = (notes: readonly PartNote[]): readonly Fix[] => removals(notes, ['open']);

/** The slurs over the passage's notes taken out, the nearest first. */
export const slursOut = (passage: Passage, stage: PlanStage): readonly Fix[] =>
  slursOver(stage, passage.part, passage.notes).map(slurRemoved);

/** Every pin let go, fingers first: a finger says less about the sound than a string. */
export const pinsLetGo = (notes: readonly PartNote[]): readonly Fix[] => [
  ...fingersLetGo(notes),
  ...stringsLetGo(notes),
  ...harmonicsOut(notes),
];
