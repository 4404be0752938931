// Lines of music and the notes of one voice that symbol lines under them count.
import type { NoteId, VoiceId } from '../score/types.ts';
import type { Offset } from '../text/span.ts';
import type { ScoreStage } from './types.ts';

/** A line of music whose notes are all of one voice. */
export interface MusicRow {
  /** Offset after the line, its line end included. */
  readonly end: Offset;
  /** Whether the line has a line end; the tune's last line may lack one. */
  readonly ended: boolean;
  readonly lineEnd: string;
  /** Notes as a symbol line counts them: chords as one, graces not. */
  readonly notes: readonly NoteId[];
}

/** The lines of music of a voice that can carry symbol lines: no other voice and no overlay in them. */
export function rowsOf(stage: ScoreStage, voice: VoiceId): readonly MusicRow[] {
  const notes = stage.score.voices.flatMap((v) => v.notes).sort((a, b) => a.from - b.from);
  const rows: MusicRow[] = [];
  let next = 0;
  for (const { at, line } of stage.tree.lines) {
    if (line.kind !== 'music') continue;
    const end = at + line.text.length;
    while (next < notes.length && notes[next]!.from < at) next++;
    const first = next;
    while (next < notes.length && notes[next]!.from < end) next++;
    const inside = notes.slice(first, next);
    if (inside.length === 0 || inside.some((note) => note.voice !== voice || note.layer > 0)) continue;
    const lineEnd = /\r\n|\n|\r/.exec(line.text)?.[0];
    rows.push({
      end,
      ended: lineEnd !== undefined,
      lineEnd: lineEnd ?? '\n',
      notes: inside.filter((note) => note.kind === 'note').map((note) => note.id),
    });
  }
  return rows;
}
