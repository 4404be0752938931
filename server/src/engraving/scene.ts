// Makes the scene's notes and its playback from a score.
import { chordEvents, droneEvents } from '../score/backing.ts';
import { barNumber } from '../score/bar-numbers.ts';
import { UNNAMED_TEMPO } from '../score/conventions.ts';
import { type Count, countsOf } from '../score/counting.ts';
import { toNumber, toText } from '../score/fraction.ts';
import { withGraces } from '../score/graces.ts';
import { beatOf } from '../score/meter.ts';
import { noteValueName } from '../score/note-values.ts';
import type { Head, Lyric, Mark, Played, Score, ScoreNote, Voice } from '../score/types.ts';
import { isOwnMark, isStringText, plainName } from './own-marks.ts';
import type { SceneNote, ScenePlayback } from './types.ts';

const letters = 'CDEFGAB';
const middleOctave = 4;

/** Diatonic steps from middle C. */
const stepOf = (head: Head): number => (head.octave - middleOctave) * letters.length + letters.indexOf(head.letter);

function ownMark(mark: Mark): string[] {
  switch (mark.kind) {
    case 'decoration':
      return isOwnMark(mark.name) ? [plainName(mark.name)] : [];
    case 'annotation':
      return isStringText(mark.text) ? [mark.text.trim()] : [];
    case 'chord-symbol':
      return [];
  }
}

const sceneNote = (note: ScoreNote, words: readonly Lyric[]): SceneNote => ({
  id: note.id,
  voice: note.voice,
  from: note.from,
  to: note.to,
  onset: note.onset,
  kind: note.kind,
  bar: note.bar,
  heads: note.heads.map((head) => ({ from: head.from, to: head.to, written: head.written, step: stepOf(head) })),
  tied: note.heads.length > 0 && note.heads.every((head) => head.tied),
  marks: [...note.marks, ...note.heads.flatMap((head) => head.marks)].flatMap(ownMark),
  words: words.map(({ from, to, text }) => ({ from, to, text })),
});

function voiceNotes({ notes, lyrics }: Voice): SceneNote[] {
  const words = new Map<number, Lyric[]>();
  for (const lyric of lyrics) words.set(lyric.note, [...(words.get(lyric.note) ?? []), lyric]);
  return notes.map((note) => sceneNote(note, words.get(note.id) ?? []));
}

/** All written notes of all voices, graces included, in the order of the voices. */
export const toSceneNotes = (score: Score): readonly SceneNote[] => score.voices.flatMap(voiceNotes);

/** Sounding pitch (MIDI) of a head of a voice. */
export type Sounding = (voice: Voice, note: ScoreNote, head: Head) => number;

/** Where a tune without bars is counted in quarters. */
const plainCount = { from: 0, bar: 0, beat: 1 / 4, perBar: 4, step: 1 / 4 };

function countsIn(counts: readonly Count[]): ScenePlayback['counts'] {
  if (counts.length === 0) return [plainCount];
  return counts.map(({ from, bar, beat, perBar, step }) => ({
    from: toNumber(from),
    bar: toNumber(bar),
    beat: toNumber(beat),
    perBar,
    step: toNumber(step),
  }));
}

function temposIn(tempos: Played['tempos']): ScenePlayback['tempos'] {
  if (tempos.length === 0) return [{ onset: 0, beat: 1 / 4, bpm: UNNAMED_TEMPO }];
  return tempos.map(({ onset, beat, bpm }) => ({ onset: toNumber(onset), beat: toNumber(beat), bpm }));
}

/** The tune played out for the page's clock. `sounding` decides the octave; without it pitches are those of the text. */
export function toScenePlayback(score: Score, played: Played, sounding: Sounding = (_voice, _note, head) => head.midi): ScenePlayback {
  const events = withGraces(score, played).flatMap(({ voice: id, events }) => {
    const voice = score.voices.find((each) => each.id === id);
    const notes = new Map((voice?.notes ?? []).map((note) => [note.id, note]));
    return events.flatMap((event) => {
      const note = notes.get(event.note);
      const head = note?.heads[event.head];
      if (voice === undefined || note === undefined || head === undefined) return [];
      return {
        note: event.note,
        voice: id,
        onset: toNumber(event.onset),
        duration: toNumber(event.duration),
        midi: sounding(voice, note, head),
        bar: (notes.get(note.graceOf ?? event.note) ?? note).bar,
      };
    });
  });
  const counts = countsOf(score, played);
  const firstVoice = score.voices.find((voice) => voice.bars.length > 0);
  return {
    events: events.sort((a, b) => a.onset - b.onset),
    tempos: temposIn(played.tempos),
    backing: [...chordEvents(score, played), ...droneEvents(score, played, 'fifth')].map((event) => ({
      ...event,
      onset: toNumber(event.onset),
      duration: toNumber(event.duration),
    })),
    counts: countsIn(counts),
    beatName: noteValueName(toText(counts[0]?.beat ?? beatOf(score.meter))),
    firstBar: firstVoice === undefined ? 1 : barNumber(firstVoice, 0),
    end: toNumber(played.end),
  };
}
