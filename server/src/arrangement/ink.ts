// Inking: what the engine computed becomes pins in the text, at every note or where something changes.
import type { Edit } from '../text/span.ts';
import { type MusicRow, rowsOf } from './music-rows.ts';
import { fingerText, pinPlace, stringText } from './pin-edits.ts';
import type { FingeredPart, HeadPin, PartNote, PlanNote, PlanPlace, PlanStage } from './types.ts';

export interface InkOptions {
  /** `changes`: the first note, where the hand moves, where the string changes. */
  readonly density: 'all' | 'changes';
  /** Before the notes, or in symbol lines under the music (graces and double stops stay inline). */
  readonly form: 'inline' | 'lines';
}

/** Marks to be written for one head; empty strings for none. */
interface Marks {
  readonly finger: string;
  readonly string: string;
  readonly harmonic: string;
}

/** Edits that write the computed places of all bass parts of a tune as pins. What is pinned already stays as it is, so inking twice changes nothing. */
export function inkEdits(stage: PlanStage, options: InkOptions): readonly Edit[] {
  const edits = stage.fingered.flatMap((fingered) => {
    const marks = marksOf(fingered, options.density);
    const rows = options.form === 'lines' ? rowsOf(stage, fingered.part.voice) : [];
    return edited(fingered, marks, rows);
  });
  return edits.sort((a, b) => a.span.from - b.span.from);
}

/** Marks of each note's heads, by index of the part's notes. */
function marksOf(fingered: FingeredPart, density: InkOptions['density']): readonly (readonly Marks[])[] {
  const { part, plan } = fingered;
  const shared = sharedSpans(part.notes);
  return part.notes.map((note, i) => {
    const planned = plan.notes[i]!;
    if (shared.has(note.note.from)) return [];
    const say = density === 'all' ? everything : saidAt(planned, plan.notes[i - 1]);
    return planned.places.map((place, head) => missing(place, note.pins[head]!, say));
  });
}

/** Notes that one macro call stands for have one place in the text and cannot be pinned apart. */
function sharedSpans(notes: readonly PartNote[]): ReadonlySet<number> {
  const starts = notes.map(({ note }) => note.from);
  return new Set(starts.filter((from, i) => starts.indexOf(from) !== i));
}

interface Said {
  readonly finger: boolean;
  readonly string: boolean;
}
const everything: Said = { finger: true, string: true };

/** What a note must say if only changes are written. */
function saidAt(note: PlanNote, before: PlanNote | undefined): Said {
  const placed = note.hand !== null && before?.hand === null;
  if (before === undefined || note.shift || placed || note.places.length > 1) return everything;
  const moved = note.places[0]?.string !== before.places[0]?.string;
  return { finger: moved && note.places[0]?.finger === '0', string: moved };
}

function missing(place: PlanPlace, pin: HeadPin, say: Said): Marks {
  const open = place.finger === '0';
  return {
    finger: say.finger && pin.finger === null ? fingerText(place.finger) : '',
    string: say.string && !open && pin.string === null ? stringText(place.string) : '',
    harmonic: place.harmonic && pin.harmonic === null ? '!open!' : '',
  };
}

function edited(fingered: FingeredPart, marks: readonly (readonly Marks[])[], rows: readonly MusicRow[]): readonly Edit[] {
  const inRow = new Set(rows.flatMap((row) => row.notes));
  const inline = fingered.part.notes.flatMap((note, i) => {
    if (marks[i]!.length === 1 && note.note.heads.length === 1 && inRow.has(note.id)) return [];
    return marks[i]!.flatMap((mark, head): readonly Edit[] => {
      const insert = mark.finger + mark.string + mark.harmonic;
      return insert === '' ? [] : [{ span: pinPlace(note, head), insert }];
    });
  });
  const index = new Map(fingered.part.notes.map((note, i) => [note.id, i]));
  const single = (id: number): Marks | null => {
    const at = index.get(id);
    const note = at === undefined ? undefined : fingered.part.notes[at];
    return at !== undefined && note?.note.heads.length === 1 ? (marks[at]![0] ?? null) : null;
  };
  return [...inline, ...rows.flatMap((row) => rowEdits(row, single))];
}

/** A symbol line for fingers (with harmonics) and one for strings under one line of music. */
function rowEdits(row: MusicRow, marksAt: (id: number) => Marks | null): readonly Edit[] {
  const lines = [(m: Marks) => m.finger + m.harmonic, (m: Marks) => m.string].flatMap((text) => {
    const tokens = row.notes.map((id) => {
      const marks = marksAt(id);
      return (marks === null ? '' : text(marks)) || '*';
    });
    const last = tokens.findLastIndex((token) => token !== '*');
    return last < 0 ? [] : [`s: ${tokens.slice(0, last + 1).join(' ')}`];
  });
  if (lines.length === 0) return [];
  const insert = lines.map((line) => (row.ended ? line + row.lineEnd : row.lineEnd + line)).join('');
  return [{ span: { from: row.end, to: row.end }, insert }];
}
