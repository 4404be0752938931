// slur.same-pitch: a slur between two notes of one pitch is a tie.
import type { PlanStage } from '../arrangement/types.ts';
import type { Fix } from './check.ts';
import { inOrder } from './shared/finding.ts';
import { spanOf } from './shared/marks.ts';
import { slursOver } from './shared/parts.ts';
import { slursOut } from './shared/remedies.ts';
import { type Passage, windowCheck } from './shared/windows.ts';

export const slurSamePitch = windowCheck('slur.same-pitch', (passage, stage) => ({
  message:
    'This slur joins two notes of the same pitch: no finger can sound the second without a pluck. Write a tie to hold the note, or take the slur out to pluck it twice.',
  fixes: [...asTie(passage, stage), ...slursOut(passage, stage)],
}));

/** The slur's signs out, a tie after the first note in. Only for a slur of exactly these two notes. */
function asTie(passage: Passage, stage: PlanStage): readonly Fix[] {
  const [first, second] = passage.notes;
  const slur = slursOver(stage, passage.part, passage.notes).find((s) => s.first === first?.id && s.last === second?.id);
  if (first === undefined || slur === undefined) return [];
  return [
    {
      title: 'Tie the notes',
      edits: inOrder([
        { span: spanOf(slur.open), insert: '' },
        { span: { from: first.note.to, to: first.note.to }, insert: '-' },
        { span: spanOf(slur.close), insert: '' },
      ]),
    },
  ];
}
