// What handlers that put tunes on pages share: a fingered tune as the makers of pages take it, and their fonts.
import type { PlanStage } from '../arrangement/types.ts';
import { prepare } from '../engraving/prepare.ts';
import type * as Handout from '../handout/index.ts';
import { playOut } from '../score/index.ts';
import type { HandoutMaker } from './host.ts';

export const handoutTune = ({ book, index, score, fingered }: PlanStage): Handout.HandoutTune => ({
  score,
  played: playOut(score),
  engraving: prepare(book, index),
  plans: fingered.map(({ plan }) => plan),
});

export async function fontsOf(kit: typeof Handout, maker: HandoutMaker): Promise<Handout.FontBook> {
  const files = await Promise.all(kit.fontNames.map(async (name) => [name, await maker.font(name)] as const));
  return kit.openFonts(Object.fromEntries(files) as Handout.FontFiles);
}
