// The plan of the text before, carried to the text as it stands: its numbers stay on notes that are as they were until their own plan is there.
import type { SceneNote } from '../../server/src/engraving/index.ts';
import type { NoteId } from '../../server/src/score/types.ts';
import type { Plan, Scene } from '../messages.ts';

const asBefore = (a: SceneNote, b: SceneNote): boolean =>
  a.kind === b.kind &&
  a.tied === b.tied &&
  a.marks.join() === b.marks.join() &&
  a.heads.length === b.heads.length &&
  a.heads.every((head, i) => head.written === b.heads[i]!.written);

/** How many notes at the front are as they were. */
function sameAtFront(old: readonly SceneNote[], now: readonly SceneNote[]): number {
  const differs = old.findIndex((note, i) => now[i] === undefined || !asBefore(note, now[i]));
  return differs < 0 ? old.length : differs;
}

/** The present note for each note (by its old id) before and behind what was edited. */
function keptNotes(old: readonly SceneNote[], now: readonly SceneNote[]): ReadonlyMap<NoteId, SceneNote> {
  const front = sameAtFront(old, now);
  const back = sameAtFront(old.slice(front).reverse(), now.slice(front).reverse());
  const more = now.length - old.length;
  return new Map(
    old.flatMap(({ id }, i) => {
      const present = i < front ? now[i] : i >= old.length - back ? now[i + more] : undefined;
      return present === undefined ? [] : [[id, present] as const];
    }),
  );
}

function carriedPlan(plan: Plan, old: readonly SceneNote[], now: readonly SceneNote[]): Plan {
  const kept = keptNotes(old, now);
  const notes = plan.notes.flatMap((note) => {
    const present = kept.get(note.id);
    if (present === undefined) return [];
    const tied = note.tied.flatMap((id) => kept.get(id) ?? []);
    const { to } = tied.at(-1) ?? present;
    return [{ ...note, id: present.id, from: present.from, to, tied: tied.map(({ id }) => id) }];
  });
  return { ...plan, notes, windows: [] };
}

/** The plans of `before` on the notes of `now` that were not edited; none for another tune. */
export function carriedPlans(before: Scene, plans: readonly Plan[], now: Scene): readonly Plan[] {
  if (before.uri !== now.uri || before.tune !== now.tune) return [];
  const ofVoice = (scene: Scene, plan: Plan) => scene.notes.filter(({ voice }) => voice === plan.voice);
  return plans
    .filter(({ voice }) => now.bassVoices.includes(voice))
    .map((plan) => carriedPlan(plan, ofVoice(before, plan), ofVoice(now, plan)));
}
