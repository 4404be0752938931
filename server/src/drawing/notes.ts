// The notes of one voice of a system, with what the plan says of them: what every part of the drawing starts from.
import type { Plan, PlanNote, PlanPlace } from '../arrangement/types.ts';
import type { EngravedHead, EngravedNote, EngravedSystem, SceneNote } from '../engraving/types.ts';
import type { NoteId, VoiceId } from '../score/types.ts';
import { furniture, type Meaning } from './make.ts';
import type { Ink } from './shapes.ts';

export interface FingeredHead {
  readonly head: EngravedHead;
  /** Index of the head in the written chord. */
  readonly index: number;
  readonly place: PlanPlace | null;
}

export interface FingeredNote {
  readonly engraved: EngravedNote;
  readonly scene: SceneNote;
  readonly heads: readonly FingeredHead[];
  readonly plan: PlanNote | null;
  /** The notes before and after it in the voice, as written; of a note that only sounds on, the one after. */
  readonly before: PlanNote | null;
  readonly after: PlanNote | null;
  /** Middle of the heads. */
  readonly x: number;
}

/** What a plan says of a note, and of the notes before and after it. */
interface Planned {
  readonly plan: PlanNote | null;
  readonly before: PlanNote | null;
  readonly after: PlanNote | null;
}

/** A plan by note. */
export type PlanIndex = ReadonlyMap<NoteId, Planned>;

const indices = new WeakMap<Plan, PlanIndex>();

/** A note and those tied to it, of which the last has the note after. */
function plannedOf(plan: PlanNote, before: PlanNote | null, after: PlanNote | null): [NoteId, Planned][] {
  const last = plan.tied.at(-1);
  if (last === undefined) return [[plan.id, { plan, before, after }]];
  return [
    [plan.id, { plan, before, after: null }],
    [last, { plan: null, before: null, after }],
  ];
}

function indexOf(plan: Plan): PlanIndex {
  let index = indices.get(plan);
  if (index === undefined) {
    index = new Map(plan.notes.flatMap((note, i) => plannedOf(note, plan.notes[i - 1] ?? null, plan.notes[i + 1] ?? null)));
    indices.set(plan, index);
  }
  return index;
}

/** The bass sounds an octave below the written note, unless the text says that this is done already. */
const soundsLike = (sounding: number, written: number): boolean => sounding === written - 12 || sounding === written;

/** The place of a written head: by order, or by pitch where only some heads of a chord sound anew. */
function placeOf(plan: PlanNote | null, scene: SceneNote, head: number): PlanPlace | null {
  if (plan === null) return null;
  if (plan.places.length === scene.heads.length) return plan.places[head]!;
  const written = scene.heads[head]!.written;
  const at = plan.sounding.findIndex((sounding) => soundsLike(sounding, written));
  return plan.places[at] ?? null;
}

/** Notes of a voice on a staff that were matched with the text; `plans` may be empty while the search is under way. */
export function notesOfVoice(system: EngravedSystem, staff: number, voice: VoiceId, plans: readonly Plan[]): FingeredNote[] {
  const plan = plans.find((each) => each.voice === voice);
  const index = plan === undefined ? null : indexOf(plan);
  return system.notes.flatMap((engraved): FingeredNote[] => {
    const scene = engraved.match?.note;
    if (engraved.staff !== staff || scene === undefined || scene.voice !== voice) return [];
    const found = index?.get(scene.id) ?? null;
    const heads = engraved.heads.map((head, i): FingeredHead => {
      const at = engraved.match!.heads[i]!;
      return { head, index: at, place: placeOf(found?.plan ?? null, scene, at) };
    });
    const x = heads.reduce((sum, { head }) => sum + head.x, 0) / heads.length;
    return [{ engraved, scene, heads, plan: found?.plan ?? null, before: found?.before ?? null, after: found?.after ?? null, x }];
  });
}

const stringMarks = /^sul/;
const fingerMarks = new Set(['0', '1', '2', '3', '4', '5', 'thumb']);

export const pinnedFinger = (scene: SceneNote): string | null => scene.marks.find((mark) => fingerMarks.has(mark)) ?? null;
export const pinnedString = (scene: SceneNote): string | null => scene.marks.find((mark) => stringMarks.test(mark)) ?? null;

/** What an arc or a slide stands for: it belongs to a note, and is spoken with its stop. */
export const joinMeaning = (role: 'hammer-arc' | 'slide', { scene }: FingeredNote): Meaning => ({
  ...furniture(role),
  source: { from: scene.from, to: scene.to },
  note: scene.id,
});

/** Who decided a note's string. */
export const stringInk = (note: FingeredNote): Ink => (note.plan?.pinned.includes('string') === true ? 'pinned' : 'computed');
