// Hammer-ons and pull-offs that lie under the hand as it is fingered: suggestions that save a pluck.
import { add, div, equal, sub, toNumber } from '../score/fraction.ts';
import type { Edit, Span } from '../text/span.ts';
import { countStart, gridStep } from './melody.ts';
import { startOfMarks } from './pin-edits.ts';
import { measuringTempo } from './task.ts';
import type { FingeredPart, PartNote, PlanNote, ScoreStage } from './types.ts';

export interface HammerSuggestion extends Span {
  readonly kind: 'hammer' | 'pull';
  /** In words for the player. */
  readonly words: string;
  readonly edits: readonly Edit[];
}

/** Longest time in seconds between the two notes (the same judgement as for slurs the arranger makes). */
const mostSeconds = 0.5;

/** Pairs that could be slurred without moving a finger from its place: the first on the grid of beats, the second off it, a semitone or tone apart on one string. */
export function hammerSuggestions(stage: ScoreStage, fingered: FingeredPart): readonly HammerSuggestion[] {
  const { part, plan } = fingered;
  const measure = measuringTempo(part);
  const seconds = 60 / (measure.bpm * toNumber(measure.beat));
  return part.notes.slice(1).flatMap((second, i) => {
    const first = part.notes[i]!;
    const soon = toNumber(sub(second.onset, first.onset)) * seconds <= mostSeconds;
    const kind = soon && fits(stage, part.voice, first, second, part.notes[i + 2]) ? kindOf(plan.notes[i]!, plan.notes[i + 1]!) : null;
    return kind === null ? [] : [suggestion(stage.text, first, second, kind, plan.notes[i + 1]!)];
  });
}

function fits(stage: ScoreStage, voiceId: string, first: PartNote, second: PartNote, after: PartNote | undefined): boolean {
  const plain = [first, second].every((note) => note.articulation === 'pluck' && note.note.kind === 'note' && note.sounding.length === 1);
  const free = after === undefined || after.articulation === 'pluck' || after.articulation === 'scoop';
  const voice = stage.score.voices.find((one) => one.id === voiceId);
  const bar = voice?.bars[first.note.bar];
  if (!plain || !free || voice === undefined || bar === undefined || first.note.bar !== second.note.bar) return false;
  const onGrid = (note: PartNote): boolean => div(sub(note.onset, countStart(voice, bar)), gridStep(bar.meter)).den === 1;
  return equal(add(first.onset, first.duration), second.onset) && onGrid(first) && !onGrid(second);
}

/** What a slur between two places would be; null where the hand as placed cannot make it. */
function kindOf(first: PlanNote, second: PlanNote): HammerSuggestion['kind'] | null {
  const [a, b] = [first.places[0], second.places[0]];
  if (a === undefined || b === undefined || a.string !== b.string || second.shift) return null;
  const way = b.stop - a.stop;
  if (Math.abs(way) < 1 || Math.abs(way) > 2 || a.finger === b.finger) return null;
  return way > 0 ? 'hammer' : 'pull';
}

function suggestion(text: string, first: PartNote, second: PartNote, kind: HammerSuggestion['kind'], place: PlanNote): HammerSuggestion {
  const from = startOfMarks(text, first, 'all');
  const what = kind === 'hammer' ? 'Hammer this note on' : 'Pull this note off';
  return {
    kind,
    from: first.note.from,
    to: second.to,
    words: `${what} on the ${place.places[0]!.string} string: it lies under the hand and saves a pluck.`,
    edits: [
      { span: { from, to: from }, insert: '(' },
      { span: { from: second.to, to: second.to }, insert: ')' },
    ],
  };
}
