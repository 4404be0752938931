// Whether two readings say the same music, wherever it stands in the text.
import type { Head, Mark, Score, ScoreNote, Voice } from '../../score/types.ts';

/** Notes, rests, marks, slurs, ties, bars, words and parts are compared; places in the text are not. */
export function sameMusic(a: Score, b: Score): boolean {
  return JSON.stringify(musicOf(a)) === JSON.stringify(musicOf(b));
}

const musicOf = (score: Score): unknown => [
  score.voices.map(voiceMusic),
  score.tempos.map(({ onset, beat, bpm, words }) => [onset, beat, bpm, words]),
  score.errors.map((error) => error.code).sort(),
];

function voiceMusic(voice: Voice): unknown {
  return [
    voice.id,
    voice.notes.map(noteMusic),
    voice.rests.map(({ onset, duration, seen, bar }) => [onset, duration, seen, bar]),
    voice.bars.map((bar) => [
      bar.onset,
      bar.duration,
      bar.part,
      bar.ending,
      bar.closedBy?.sign,
      bar.meter,
      bar.startRepeats,
      bar.endRepeats,
    ]),
    voice.slurs.map(({ first, last, dotted }) => [first, last, dotted]),
    voice.lyrics.map(({ note, verse, text, hyphen }) => [note, verse, text, hyphen]),
    voice.parts.map(({ label, bar }) => [label, bar]),
    voice.clefChanges,
    voice.instructions.map(({ name, rest, before }) => [name, rest, before]),
  ];
}

const noteMusic = (note: ScoreNote): unknown => [
  note.onset,
  note.duration,
  note.kind,
  note.bar,
  note.layer,
  note.graceOf,
  note.marks.map(markMusic),
  note.heads.map(headMusic),
];

const headMusic = (head: Head): unknown => [
  head.midi,
  head.written,
  head.duration,
  head.tieTo,
  head.tied,
  head.accidental,
  head.letter,
  head.marks.map(markMusic),
];

const markMusic = (mark: Mark): unknown => (mark.kind === 'decoration' ? [mark.kind, mark.name] : [mark.kind, mark.text]);
