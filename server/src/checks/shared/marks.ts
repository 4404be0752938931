// Edits on the marks of notes: taking out a pin, a slur, a slide or an accent, wherever it is written.
import type { PartNote } from '../../arrangement/types.ts';
import type { Mark, Slur } from '../../score/types.ts';
import type { Edit, Span } from '../../text/span.ts';
import type { Fix } from '../check.ts';
import { inOrder } from './finding.ts';

/** The decorations of a note with one of these names, on the note itself or on its heads. */
export const marksNamed = (note: PartNote, names: readonly string[]): readonly Mark[] =>
  [...note.note.marks, ...note.note.heads.flatMap((head) => head.marks)].filter(
    (mark) => mark.kind === 'decoration' && names.includes(mark.name),
  );

/** Takes a mark out. In a symbol line a `*` keeps its place, so that later marks stay with their notes. */
export const markRemoved = (mark: Mark): Edit => ({ span: spanOf(mark), insert: mark.source === 'symbol-line' ? '*' : '' });

export const spanOf = (span: Span): Span => ({ from: span.from, to: span.to });

/** One fix a mark: `Remove !0!`. */
export const removals = (notes: readonly PartNote[], names: readonly string[]): readonly Fix[] =>
  notes.flatMap((note) => marksNamed(note, names)).map((mark) => ({ title: `Remove ${textOf(mark)}`, edits: [markRemoved(mark)] }));

const textOf = (mark: Mark): string => (mark.kind === 'decoration' ? `!${mark.name}!` : `"${mark.text}"`);

/** Takes both ends of a slur out. */
export const slurRemoved = (slur: Slur): Fix => ({
  title: 'Take the slur out',
  edits: inOrder([
    { span: spanOf(slur.open), insert: '' },
    { span: spanOf(slur.close), insert: '' },
  ]),
});
