// Trying fixes out: only those are offered that let the passage be played and break none beside it.
import { readBook } from '../../abc/index.ts';
import { partStage } from '../../arrangement/index.ts';
import type { BassPart, FingeredPart, PlanStage } from '../../arrangement/types.ts';
import { compare } from '../../score/fraction.ts';
import type { Fraction } from '../../score/types.ts';
import { applyEdits } from '../../text/span.ts';
import type { Fix } from '../check.ts';
import type { Passage } from './windows.ts';

/** Notes fingered on either side of a passage: what a pin let go there may bring about. */
const margin = 3;

/** The fixes after which the worst window of the passage is gone and nothing else became impossible near it. */
export function mending(passage: Passage, stage: PlanStage, fixes: readonly Fix[]): readonly Fix[] {
  const fingered = stage.fingered.find(({ part }) => part === passage.part);
  return fingered === undefined ? [] : fixes.filter((fix) => mends(passage, stage, fingered, fix));
}

function mends(passage: Passage, stage: PlanStage, fingered: FingeredPart, fix: Fix): boolean {
  const part = rereadPart(stage, passage.part, applyEdits(stage.text, fix.edits));
  if (part === null) return false;
  const before = impossible(fingered.again(around(passage.part, passage)));
  const after = impossible(fingered.again(around(part, passage)));
  const own = new Set(passage.notes.map((note) => onsetKey(note.onset)));
  const isNew = (window: string): boolean => !before.includes(window);
  const isOwn = (window: string): boolean => window.split(' ').every((onset) => own.has(onset));
  return !after.some((window) => isNew(window) || isOwn(window));
}

function rereadPart(stage: PlanStage, part: BassPart, text: string): BassPart | null {
  const { tunes } = readBook(text);
  const read = partStage({ header: stage.book.header, tunes }, 0, stage.config).parts.find(({ voice }) => voice === part.voice);
  return read?.kind === 'bass' ? read : null;
}

/** The notes of the passage and a few beside them as a part of their own, without its jumps. */
function around(part: BassPart, passage: Passage): BassPart {
  const [first, last] = [passage.notes[0]!.onset, passage.notes.at(-1)!.onset];
  const inside = part.notes.map((note) => compare(note.onset, first) >= 0 && compare(note.onset, last) <= 0);
  const start = Math.max(0, inside.indexOf(true) - margin);
  const end = Math.min(part.notes.length, inside.lastIndexOf(true) + 1 + margin);
  const notes = part.notes.slice(start, end).map((note) => ({ ...note, held: note.held.map((i) => i - start).filter((i) => i >= 0) }));
  const breaks = part.breaks.map((i) => i - start).filter((i) => i > 0 && i < notes.length);
  return { ...part, notes, jumps: [], breaks };
}

/** The impossible windows, each as the onsets of its notes: those stay the same when marks come out. */
const impossible = ({ part, plan }: FingeredPart): readonly string[] =>
  plan.windows.map((window) =>
    part.notes
      .filter(({ id }) => window.notes.includes(id))
      .map(({ onset }) => onsetKey(onset))
      .join(' '),
  );

const onsetKey = ({ num, den }: Fraction): string => `${num}/${den}`;
