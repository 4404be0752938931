// What a tune still lacks before it is handed to the public: title, source, rights, every note decided, no error.
import type { PlanNote, PlanStage } from '../../arrangement/types.ts';
import { findingsOf } from '../../checks/index.ts';
import type { Score } from '../../score/types.ts';

/** One sentence for each thing missing; empty if the tune may go out. */
export function missingToPublish(stage: PlanStage): readonly string[] {
  const { score } = stage;
  return [
    score.title === '' ? 'no title: add T:.' : null,
    namesOrigin(score) ? null : 'no composer and no source: add C: or S:.',
    namesRights(score) ? null : 'no rights: say "traditional", a licence or a copyright in C:, S:, Z: or N:, or add %%abc-copyright.',
    openNotes(stage),
    errorsOf(stage),
  ].filter((text) => text !== null);
}

const texts = (score: Score, letters: string): readonly string[] =>
  score.texts.filter((text) => letters.includes(text.letter) && text.text !== '').map((text) => text.text);

const namesOrigin = (score: Score): boolean => texts(score, 'CSO').length > 0;

const rights = /copyright|©|\(c\)|public domain|\btrad(?:itional)?\b|\bCC(?:0|[ -]BY)|licen[cs]e|all rights|permission/i;

function namesRights(score: Score): boolean {
  const said = score.voices.some((voice) => voice.instructions.some((one) => one.name === 'abc-copyright' && one.rest.trim() !== ''));
  return said || texts(score, 'COSZNHA').some((text) => rights.test(text));
}

/** A note is decided if its finger and string are written; an open string by either. */
function decided(note: PlanNote): boolean {
  const finger = note.pinned.includes('finger');
  const string = note.pinned.includes('string');
  const open = note.places.length > 0 && note.places.every((place) => place.finger === '0');
  return note.pinned.includes('harmonic') || (finger && string) || (open && (finger || string));
}

function openNotes(stage: PlanStage): string | null {
  const notes = stage.fingered.flatMap(({ plan }) => plan.notes);
  const open = notes.filter((note) => !decided(note)).length;
  if (open === 0) return null;
  return `${open} of ${notes.length} notes have no finger and string in the text: write them with "bullfiddle ink --density all".`;
}

function errorsOf(stage: PlanStage): string | null {
  const errors = findingsOf(stage, 'plan').filter((finding) => finding.severity === 'error');
  if (errors.length === 0) return null;
  const codes = [...new Set(errors.map((finding) => finding.code))].join(', ');
  return `${errors.length === 1 ? 'an error' : `${errors.length} errors`} (${codes}): "bullfiddle check" says where.`;
}
