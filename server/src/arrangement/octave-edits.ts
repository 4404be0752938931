// Moving a passage by octaves in the text.
import type { Edit, Span } from '../text/span.ts';
import { pitchAt, pitchText } from './pitch-text.ts';
import type { ScoreStage } from './types.ts';

/** Edits that move every note (chords and graces included) that begins in `range` by whole octaves. */
export function octaveEdits(stage: ScoreStage, range: Span, octaves: number): readonly Edit[] {
  const heads = stage.score.voices.flatMap((voice) => voice.notes).flatMap((note) => note.heads);
  const places = new Set(heads.map((head) => head.from).filter((from) => range.from <= from && from < range.to));
  return [...places]
    .sort((a, b) => a - b)
    .flatMap((from) => {
      const pitch = pitchAt(stage.text, from);
      if (pitch === null) return [];
      const start = from + pitch.accidental.length;
      return [{ span: { from: start, to: pitch.to }, insert: pitchText(pitch.letter, pitch.octave + octaves) }];
    });
}
