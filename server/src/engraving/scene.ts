// Makes the scene's notes and its playback from a score.
import { chordEvents, droneEvents } from '../score/backing.ts';
import { toNumber } from '../score/fraction.ts';
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

/** Beats to click on: three eighths in compound meters, quarters in cut time, else the meter's own unit. */
function beatsOf(meter: Score['meter']): ScenePlayback['beats'] {
  if (meter.kind === 'none') return { unit: 1 / 4, perBar: 4 };
  const count = meter.beats.reduce((sum, beat) => sum + beat, 0);
  if (meter.unit === 8 && count % 3 === 0 && count > 3) return { unit: 3 / 8, perBar: count / 3 };
  if (meter.unit === 2) return { unit: 1 / 4, perBar: count * 2 };
  return { unit: 1 / meter.unit, perBar: count };
}

/** Length of the first bar if it is short of its meter, in whole notes. */
function pickupOf(score: Score): number {
  const bar = score.voices[0]?.bars[0];
  if (bar === undefined || bar.nominal === null) return 0;
  const length = toNumber(bar.duration);
  return length < toNumber(bar.nominal) ? length : 0;
}

/** The tune played out for the page's clock. `sounding` decides the octave; without it pitches are those of the text. */
export function toScenePlayback(score: Score, played: Played, sounding: Sounding = (_voice, _note, head) => head.midi): ScenePlayback {
  const events = played.voices.flatMap(({ voice: id, events }) => {
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
        bar: note.bar,
      };
    });
  });
  return {
    events: events.sort((a, b) => a.onset - b.onset),
    tempos: played.tempos.map(({ onset, beat, bpm }) => ({ onset: toNumber(onset), beat: toNumber(beat), bpm })),
    backing: [...chordEvents(score, played), ...droneEvents(score, played, 'fifth')].map((event) => ({
      ...event,
      onset: toNumber(event.onset),
      duration: toNumber(event.duration),
    })),
    beats: beatsOf(score.meter),
    pickup: pickupOf(score),
    end: toNumber(played.end),
  };
}
