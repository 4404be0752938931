// Walking the bass parts of a stage.
import type { BassPart, PartNote, PartStage } from '../../arrangement/types.ts';
import type { Slur, Voice } from '../../score/types.ts';

export const bassParts = (stage: PartStage): readonly BassPart[] => stage.parts.filter((part) => part.kind === 'bass');

/** The score's voice of a part. */
export const voiceOf = (stage: PartStage, part: BassPart): Voice | null =>
  stage.score.voices.find((voice) => voice.id === part.voice) ?? null;

/** The slurs (not phrases) that join at least two of these notes. */
export function slursOver(stage: PartStage, part: BassPart, notes: readonly PartNote[]): readonly Slur[] {
  const ids = notes.flatMap((note) => [note.id, ...note.tied]);
  const [first, last] = [Math.min(...ids), Math.max(...ids)];
  return (voiceOf(stage, part)?.slurs ?? []).filter((slur) => !slur.dotted && slur.first < last && slur.last > first);
}
