// String and finger for the note at the caret, easiest first, each with its place, its cost and what follows from it.
import { keepingSymbolPlaces, pinEdits } from '../../arrangement/index.ts';
import type { BassPart } from '../../arrangement/types.ts';
import { applyEdits, type Edit, type Offset, type Span } from '../../text/span.ts';
import type { Feature, TextView } from '../feature.ts';
import { type PlaceChoice, placeChoices } from '../shared/choices.ts';
import { inOrder } from '../shared/edits.ts';
import { lineAt } from '../shared/locate.ts';
import { pinText, shortPlace } from '../shared/places.ts';
import { type PlannedNote, plannedNote } from '../shared/plan-notes.ts';
import { type Context, contextAt } from './context.ts';
import type { CompletionItem, Completions } from './item.ts';

/** The question is the caret: on a note, or before it among its marks. */
export const pinCompletions: Feature<'plan', Offset, Completions> = {
  needs: 'plan',
  answer(stage, at) {
    const context = contextAt(stage, at);
    if (!isAmongNotes(context)) return [];
    const typed = context.kind === 'decoration' ? context.span : { from: at, to: at };
    const found = stage.fingered.flatMap((fingered) => plannedNote(fingered, noteFrom(stage, fingered.part, typed, at)) ?? [])[0];
    if (found === undefined) return [];
    return placeChoices(found).map((choice) => item(stage, found, choice, typed, at));
  },
};

const isAmongNotes = (context: Context): boolean =>
  context.kind === 'music' || context.kind === 'decoration' || (context.kind === 'line-start' && context.where === 'body');

/** The first note of the caret's line that does not end before the caret, with nothing but marks between; -1 if there is none. */
function noteFrom(stage: TextView, part: BassPart, typed: Span, at: Offset): number {
  const line = lineAt(stage.tree.lines, at);
  if (line === null) return -1;
  const end = line.at + line.line.text.length;
  const index = part.notes.findIndex(({ note }) => note.to >= at && note.to >= typed.to && note.from >= line.at && note.from < end);
  const note = part.notes[index]?.note;
  if (note === undefined) return -1;
  return note.from <= typed.to || !/[|zxA-Ga-g]/.test(withoutMarks(stage.text.slice(typed.to, note.from))) ? index : -1;
}

const withoutMarks = (text: string): string => text.replace(/"[^"]*"|![^!]*!|\{[^}]*\}|\[[A-Za-z]:[^\]]*\]/g, '');

function item({ text, tree }: TextView, planned: PlannedNote, choice: PlaceChoice, typed: Span, at: Offset): CompletionItem {
  const pins = choice.places.flatMap((place, head) => pinEdits(planned.note, head, place));
  const edits = inOrder(keepingSymbolPlaces(tree, [...typedOut(typed), ...pins]));
  const near = edits.filter((edit) => !/[\r\n]/.test(text.slice(Math.min(at, edit.span.from), Math.max(at, edit.span.to))));
  const from = Math.min(at, ...near.map((edit) => edit.span.from));
  const to = Math.max(at, ...near.map((edit) => edit.span.to));
  const within = near.map(({ span, insert }) => ({ span: { from: span.from - from, to: span.to - from }, insert }));
  return {
    label: choice.places.map(shortPlace).join(' and '),
    kind: 'pin',
    detail: choice.cost,
    explanation: choice.effect,
    // Editors want one replacement around the caret; what lies on other lines (symbol lines) comes beside it.
    span: { from, to },
    insert: applyEdits(text.slice(from, to), inOrder(within)),
    extra: inOrder(edits.filter((edit) => !near.includes(edit))),
    filter: text.slice(from, typed.from) + choice.places.map(pinText).join(''),
  };
}

const typedOut = (typed: Span): readonly Edit[] => (typed.to > typed.from ? [{ span: typed, insert: '' }] : []);
