// The plan of the text before, and what was found in it, carried to the text as it stands: both stay on notes that are as they were until their own plan is there.
import type { SceneNote } from '../../server/src/engraving/index.ts';
import type { NoteId, VoiceId } from '../../server/src/score/types.ts';
import type { Plan, Scene, SceneFinding } from '../messages.ts';

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

const sameTune = (before: Scene, now: Scene): boolean => before.uri === now.uri && before.tune === now.tune;

const ofVoice = ({ notes }: Scene, wanted: VoiceId) => notes.filter(({ voice }) => voice === wanted);

/** The plans of `before` on the notes of `now` that were not edited; none for another tune. */
export function carriedPlans(before: Scene, plans: readonly Plan[], now: Scene): readonly Plan[] {
  if (!sameTune(before, now)) return [];
  return plans
    .filter(({ voice }) => now.bassVoices.includes(voice))
    .map((plan) => carriedPlan(plan, ofVoice(before, plan.voice), ofVoice(now, plan.voice)));
}

/**
 * Those of the findings of `before` that rest on its plan and on notes that were not edited; none for another tune.
 * A text that was judged before brings its own.
 */
export function carriedFindings(before: Scene, findings: readonly SceneFinding[], now: Scene): readonly SceneFinding[] {
  const onPlan = (all: readonly SceneFinding[]) => all.filter(({ rests }) => rests === 'plan');
  const old = onPlan(findings);
  if (old.length === 0 || onPlan(now.findings).length > 0 || !sameTune(before, now)) return [];
  const voices = [...new Set(before.notes.map(({ voice }) => voice))];
  const kept = new Map(voices.flatMap((voice) => [...keptNotes(ofVoice(before, voice), ofVoice(now, voice))]));
  return old.flatMap((finding) => {
    const notes = finding.notes.flatMap((id) => kept.get(id) ?? []);
    if (notes.length === 0 || notes.length < finding.notes.length) return [];
    const from = Math.min(...notes.map((note) => note.from));
    const to = Math.max(...notes.map((note) => note.to));
    return [{ ...finding, from, to, notes: notes.map(({ id }) => id) }];
  });
}
