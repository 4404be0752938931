// Scenes of a tune text, as the server would make them, for tests and benches of the page.
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, planStage, soundingPitch } from '../../../server/src/arrangement/index.ts';
import { findingsOf, restsOnPlan } from '../../../server/src/checks/index.ts';
import { prepare, toSceneNotes, toScenePlayback } from '../../../server/src/engraving/index.ts';
import type { Scene } from '../../../server/src/engraving/types.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
import { playOut } from '../../../server/src/score/index.ts';

const tables = makeTables(8 << 20);

/** The scene of tune `tune` of a book, plan and findings included. */
export function sceneOf(text: string, tune: number, version = 1): Scene {
  const book = readBook(text);
  const stage = planStage(book, tune, defaultConfig, tables);
  const notes = stage.score.voices.flatMap((voice) => voice.notes);
  const findings = findingsOf(stage, 'plan').map(({ from, to, code, severity, message }) => ({
    from,
    to,
    code,
    severity,
    message,
    rests: restsOnPlan(code) ? ('plan' as const) : ('text' as const),
    notes: notes.filter((note) => note.from < to && from < note.to).map((note) => note.id),
  }));
  return {
    uri: 'file:///tunes.abc',
    revision: { document: version, settings: 1 },
    tune,
    at: book.tunes[tune]!.at,
    title: stage.score.title,
    engraving: prepare(book, tune),
    notes: toSceneNotes(stage.score),
    bassVoices: stage.parts.filter((part) => part.kind === 'bass').map((part) => part.voice),
    plans: stage.fingered.map((one) => one.plan),
    findings,
    playback: toScenePlayback(stage.score, playOut(stage.score), (voice, _note, head) => soundingPitch(head, voice.clef)),
  };
}
