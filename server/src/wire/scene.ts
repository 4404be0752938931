// The scene of a tune: everything a page needs to draw it, JSON-safe.

import { clefAt, soundingPitch } from '../arrangement/index.ts';
import type { PartStage, PlanStage } from '../arrangement/types.ts';
import type { Finding } from '../checks/check.ts';
import { restsOnPlan } from '../checks/index.ts';
// From their own files: the layer's index brings the engraving library along, which the server never calls.
import { prepare } from '../engraving/prepare.ts';
import { type Sounding, toSceneNotes, toScenePlayback } from '../engraving/scene.ts';
import type { Revision, Scene, SceneFinding } from '../engraving/types.ts';
import { playOut } from '../score/index.ts';
import type { TuneState } from './analysis.ts';
import { tuneStart } from './convert.ts';
import type { OpenDocument } from './documents.ts';
import type { PlanNews } from './protocol.ts';

export function sceneOf(document: OpenDocument, tune: number, revision: Revision, state: TuneState): Scene {
  const { score, parts } = state.part;
  return {
    uri: document.uri,
    revision,
    tune,
    at: tuneStart(document, tune),
    title: score.title,
    engraving: prepare(document.book, tune),
    notes: toSceneNotes(score),
    bassVoices: parts.filter((part) => part.kind === 'bass').map((part) => part.voice),
    plans: state.plan ? plansOf(state.plan) : state.settled ? [] : null,
    findings: state.findings.map((finding) => sceneFinding(state.part, finding)),
    playback: toScenePlayback(score, playOut(score), soundingIn(parts)),
  };
}

/** Bass parts sound an octave below what is written; melodies as the text says. */
function soundingIn(parts: PartStage['parts']): Sounding {
  const bass = new Set(parts.filter((part) => part.kind === 'bass').map((part) => part.voice));
  return (voice, note, head) => (bass.has(voice.id) ? soundingPitch(head, clefAt(voice, note.onset)) : head.midi);
}

export const planNews = (
  document: OpenDocument,
  tune: number,
  revision: Revision,
  state: TuneState & { readonly plan: PlanStage },
): PlanNews => ({
  uri: document.uri,
  tune,
  revision,
  plans: plansOf(state.plan),
  findings: state.findings.map((finding) => sceneFinding(state.part, finding)),
});

const plansOf = (stage: PlanStage): Scene['plans'] & object => stage.fingered.map((one) => one.plan);

function sceneFinding(part: PartStage, { from, to, code, severity, message }: Finding): SceneFinding {
  const notes = part.score.voices.flatMap((voice) => voice.notes.filter((note) => note.from < to && from < note.to).map((note) => note.id));
  return { from, to, code, severity, message, notes, rests: restsOnPlan(code) ? 'plan' : 'text' };
}
