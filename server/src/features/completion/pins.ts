// String and finger for the note at the caret, easiest first, each with its place, its cost and what follows from it.
import type { BassPart, PartNote } from '../../arrangement/types.ts';
import { applyEdits, type Edit, type Offset, type Span } from '../../text/span.ts';
import type { Feature } from '../feature.ts';
import { type PlaceChoice, placeChoices } from '../shared/choices.ts';
import { lineAt } from '../shared/locate.ts';
import { pinText, shortPlace } from '../shared/places.ts';
import { type PlannedNote, plannedNote } from '../shared/plan-notes.ts';
import { contextAt } from './context.ts';
import type { CompletionItem, Completions } from './item.ts';

/** The question is the caret: on a note, or before it among its marks. */
export const pinCompletions: Feature<'plan', Offset, Completions> = {
  needs: 'plan',
  answer(stage, at) {
    const context = contextAt(stage, at);
    if (context.kind !== 'music' && context.kind !== 'decoration') return [];
    const typed = context.kind === 'decoration' ? context.span : { from: at, to: at };
    const found = stage.fingered.flatMap((fingered) => plannedNote(fingered, noteFrom(stage, fingered.part, typed, at)) ?? [])[0];
    if (found === undefined) return [];
    return placeChoices(found).map((choice) => item(stage.text, found, choice, typed, at));
  },
};

/** The first note of the caret's line that does not end before the caret, with nothing but marks between; -1 if there is none. */
function noteFrom(
  stage: { readonly text: string; readonly tree: Parameters<typeof contextAt>[0]['tree'] },
  part: BassPart,
  typed: Span,
  at: Offset,
): number {
  const line = lineAt(stage.tree.lines, at);
  if (line === null) return -1;
  const end = line.at + line.line.text.length;
  const index = part.notes.findIndex(({ note }) => note.to >= at && note.to >= typed.to && note.from >= line.at && note.from < end);
  const note = part.notes[index]?.note;
  if (note === undefined) return -1;
  return note.from <= typed.to || !/[|zxA-Ga-g]/.test(withoutMarks(stage.text.slice(typed.to, note.from))) ? index : -1;
}

const withoutMarks = (text: string): string => text.replace(/"[^"]*"|![^!]*!|\{[^}]*\}|\[[A-Za-z]:[^\]]*\]/g, '');

function item(text: string, planned: PlannedNote, choice: PlaceChoice, typed: Span, at: Offset): CompletionItem {
  const { from, to, edits } = oneReplacement(pinEdits(planned.note, choice, typed), at);
  const within = edits.map(({ span, insert }) => ({ span: { from: span.from - from, to: span.to - from }, insert }));
  const pins = choice.places.map(pinText).join('');
  return {
    label: choice.places.map(shortPlace).join(' and '),
    kind: 'pin',
    detail: choice.cost,
    explanation: choice.effect,
    span: { from, to },
    insert: applyEdits(text.slice(from, to), within),
    filter: text.slice(from, typed.from) + pins,
  };
}

/** Takes out what is typed and the note's own inline pins, and writes the choice before each head. */
function pinEdits(note: PartNote, choice: PlaceChoice, typed: Span): readonly Edit[] {
  const old = note.pins.flatMap((pin) => [
    pin.finger?.span,
    pin.string?.carried === false ? pin.string.span : undefined,
    pin.harmonic?.span,
  ]);
  const spans = [...(typed.to > typed.from ? [typed] : []), ...old.filter((span) => span !== undefined)].filter(
    (span) => span.from < note.note.to,
  );
  const removals = [...new Map(spans.map((span) => [span.from, span])).values()].map((span) => ({ span, insert: '' }));
  const heads = note.note.heads.filter((head) => !head.tied);
  const inserts = choice.places.map((place, i) => {
    const from = heads.length > 1 ? (heads[i]?.from ?? note.note.from) : note.note.from;
    return { span: { from, to: from }, insert: pinText(place) };
  });
  return [...removals, ...inserts].sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);
}

/** The stretch that holds all edits and the caret: editors want one replacement around the caret. */
function oneReplacement(edits: readonly Edit[], at: Offset): Span & { readonly edits: readonly Edit[] } {
  const from = Math.min(at, ...edits.map((edit) => edit.span.from));
  const to = Math.max(at, ...edits.map((edit) => edit.span.to));
  return { from, to, edits };
}
