// What may be done to a part without a note of it changing: ink, format, rename, transpose there and back. For the unit suite on the demo and a few tunes, for the long run on all.
import { readBook } from '../../server/src/abc/index.ts';
import { type InkOptions, inkEdits, planStage, scoreStage } from '../../server/src/arrangement/index.ts';
import type { PlanStage } from '../../server/src/arrangement/types.ts';
import { defaultFeatureSettings } from '../../server/src/features/feature.ts';
import { format } from '../../server/src/features/format.ts';
import { namesOf } from '../../server/src/features/names.ts';
import { rename } from '../../server/src/features/rename.ts';
import { toText } from '../../server/src/score/fraction.ts';
import { applyEdits } from '../../server/src/text/span.ts';
import { tools, transposeFaults } from './arranging.ts';

const ways: readonly InkOptions[] = (['all', 'changes'] as const).flatMap((density) =>
  (['inline', 'lines'] as const).map((form) => ({ density, form })),
);

const planned = (text: string): PlanStage => planStage(readBook(text), 0, tools.config, tools.tables);
const fingering = ({ fingered }: PlanStage): string =>
  JSON.stringify(fingered.map(({ plan }) => [plan.cost, plan.notes.map((n) => n.places)]));

/** Onset, length and pitches of every note, told without any of the code that changes texts. */
const notesOf = (text: string): string =>
  scoreStage(readBook(text), 0)
    .score.voices.flatMap((voice) =>
      voice.notes.map((note) => `${toText(note.onset)} ${toText(note.duration)} ${note.heads.map((head) => `${head.midi}${head.tied}`)}`),
    )
    .join('\n');

/** Inked in each notation and searched again: the same places at the same cost, and a second inking finds nothing to write. */
function inkFaults(text: string): readonly string[] {
  const before = planned(text);
  return ways.flatMap((way) => {
    const once = applyEdits(text, inkEdits(before, way));
    const after = planned(once);
    const name = `inked ${way.density} ${way.form}`;
    const faults = fingering(after) === fingering(before) ? [] : [`${name}: other places or another cost`];
    if (notesOf(once) !== notesOf(text)) faults.push(`${name}: other notes`);
    return applyEdits(once, inkEdits(after, way)) === once ? faults : [...faults, `${name}: not settled`];
  });
}

function formatFaults(text: string): readonly string[] {
  const formatted = (before: string): string =>
    applyEdits(before, format.answer(scoreStage(readBook(before), 0), null, defaultFeatureSettings));
  const once = formatted(text);
  const faults = notesOf(once) === notesOf(text) ? [] : ['formatted: other notes'];
  return formatted(once) === once ? faults : [...faults, 'formatted: not settled'];
}

/** Each name of the tune changed to one it has not, and back. */
function renameFaults(text: string): readonly string[] {
  const fresh = { voice: 'other-voice', part: 'Q', symbol: 'W', tune: 'other-tune' } as const;
  const renamed = (before: string, at: number, name: string): string | null => {
    const stage = scoreStage(readBook(before), 0);
    const made = rename.answer(stage, { at, name }, defaultFeatureSettings);
    return made.kind === 'refused' ? null : applyEdits(before, made.byTune.find(({ tune }) => tune === 0)?.edits ?? []);
  };
  return namesOf(readBook(text), 0).flatMap(({ kind, name, from }) => {
    const there = renamed(text, from, fresh[kind]);
    const place = there === null ? undefined : namesOf(readBook(there), 0).find((one) => one.kind === kind && one.name === fresh[kind]);
    if (there === null || place === undefined) return [`${kind} ${name} could not be renamed`];
    if (notesOf(there) !== notesOf(text)) return [`${kind} ${name} renamed: other notes`];
    return renamed(there, place.from, name) === text ? [] : [`${kind} ${name} renamed and back: another text`];
  });
}

/** What of a part does not survive; the text is one tune that stands alone. */
export const roundTripFaults = (text: string): readonly string[] => [
  ...inkFaults(text),
  ...formatFaults(text),
  ...renameFaults(text),
  ...[2, -5].flatMap((by) => transposeFaults(scoreStage(readBook(text), 0), by)),
];
