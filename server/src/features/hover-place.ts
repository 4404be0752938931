// Where a note is played, why there, and what the next best place would cost.
import { whyDearer } from '../arrangement/index.ts';
import type { PlanPlace, PlanWindow } from '../arrangement/types.ts';
import type { Feature } from './feature.ts';
import type { Hover } from './hover.ts';
import { type PlaceChoice, placeChoices } from './shared/choices.ts';
import { handWords, placeWords } from './shared/places.ts';
import { handBefore, type PlannedNote, plannedNoteAt, sameHand } from './shared/plan-notes.ts';
import { termLine } from './shared/terms.ts';

/** The question is an offset. */
export const placeHover: Feature<'plan', number, Hover | null> = {
  needs: 'plan',
  answer(stage, at) {
    const found = plannedNoteAt(stage, at);
    if (found === null) return null;
    const { from, to } = found.note.note;
    const { fingered, plan } = found;
    if (plan.places.length === 0) return { from, to, text: [unplayableLine(found)] };
    const text = [placeLine(found), whyLine(found), nextBestLine(found), cautionLine(found)].filter((line) => line !== '');
    return { from, to, text, played: { plan: fingered.plan, note: plan } };
  },
};

const attackWords = {
  pluck: '',
  hammer: 'hammered on',
  pull: 'pulled off',
  glide: 'slid into, one pluck',
  scoop: 'plucked, slid into from just below',
  'left-hand': 'plucked with the left hand',
  dead: 'muted',
};

function placeLine({ plan }: PlannedNote): string {
  const places = plan.places.map((place) =>
    place.finger === '0' || place.harmonic ? placeWords(place) : `${placeWords(place)} (${Math.round(place.mm)} mm from the nut)`,
  );
  const attack = attackWords[plan.attack];
  return `**${places.join(' and ')}**${attack === '' ? '' : `, ${attack}`}.`;
}

function whyLine(note: PlannedNote): string {
  const { plan, fingered, index } = note;
  const pinned = plan.pinned.length > 0 ? `Pinned by you: ${plan.pinned.join(' and ')}. ` : '';
  if (plan.hand === null) return `${pinned}The hand is free here.`;
  const before = handBefore(fingered, index);
  if (before === null) return `${pinned}The hand begins in ${handWords(plan.hand)}.`;
  return (
    pinned +
    (sameHand(before, plan.hand)
      ? `The hand stays in ${handWords(plan.hand)}.`
      : `The hand goes from ${handWords(before)} to ${handWords(plan.hand)}.`)
  );
}

/** The next best place; for a note whose pin costs something, the easiest one. */
function nextBestLine(note: PlannedNote): string {
  const choices = placeChoices(note);
  const isHere = (choice: PlaceChoice): boolean => choice.places.every((place, head) => sameSpot(place, note.plan.places[head]));
  const here = choices.find(isHere);
  const other = choices.find((choice) => choice !== here);
  if (other === undefined) return choices.length === 0 ? '' : 'There is no other place within the limits.';
  const words = other.places.map(placeWords).join(' and ');
  if (here !== undefined && here.regret > 0) return `Easiest: ${words}; this is ${here.cost}.`;
  return `Next best: ${words}, ${other.cost}${whyWords(note, other)}.`;
}

/** What makes the other place dearer: the greatest differences, in shifts. */
function whyWords({ fingered, index }: PlannedNote, other: PlaceChoice): string {
  const line = other.regret > 0 ? termLine(whyDearer(fingered, index, other.places)) : '';
  return line === '' ? '' : ` (${line})`;
}

const sameSpot = (a: PlaceChoice['places'][number], b: PlanPlace | undefined): boolean =>
  b !== undefined && a.string === b.string && a.stop === b.stop && a.finger === b.finger && a.harmonic === b.harmonic;

const cautionLine = ({ plan }: PlannedNote): string =>
  plan.hand?.frame === 'thumb' || plan.hand?.frame === 'open'
    ? 'Wide or high hands tire: stop on pain or numbness, rest, and let a teacher or clinician decide.'
    : '';

function unplayableLine({ fingered, note }: PlannedNote): string {
  const window = fingered.plan.windows.find((one) => one.notes.includes(note.id));
  return `No hand within the stated limits plays this passage${window === undefined ? '' : `: ${needLine(window)}`}.`;
}

function needLine(window: PlanWindow): string {
  if (window.unit === 'none') return `\`${window.code}\``;
  const unit = window.unit === 'semitones' ? 'semitones' : window.unit;
  return `it needs ${Math.round(window.needed)} ${unit}, there are ${Math.round(window.available)} (\`${window.code}\`)`;
}
