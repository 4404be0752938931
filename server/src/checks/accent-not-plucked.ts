// accent.not-plucked: an accent on a note that is hammered, pulled off or slid to: an accent is a pluck.
import type { BassPart, PartNote } from '../arrangement/types.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';
import { markRemoved, marksNamed } from './shared/marks.ts';
import { bassParts } from './shared/parts.ts';

/** Names of the standard's accents, `L` included (which stands for `!emphasis!`). */
const accents = ['>', 'accent', 'emphasis'];

export const accentNotPlucked: Check<'part'> = {
  codes: ['accent.not-plucked'],
  needs: 'part',
  severity: 'warning',
  find: (stage) => bassParts(stage).flatMap(findingsIn),
};

const findingsIn = (part: BassPart): readonly Finding[] => part.notes.filter(isSlurredTo).flatMap(onNote);

const isSlurredTo = (note: PartNote): boolean => ['hammer', 'pull', 'glide'].includes(note.articulation);

function onNote(note: PartNote): readonly Finding[] {
  return marksNamed(note, accents).map((mark) =>
    finding(
      'accent.not-plucked',
      'warning',
      mark,
      `An accent is a strong pluck, and this note is ${how(note)}, not plucked. Accent the note the slur starts from, or take the slur out.`,
      { fixes: [{ title: 'Take the accent out', edits: [markRemoved(mark)] }] },
    ),
  );
}

const how = (note: PartNote): string =>
  note.articulation === 'hammer' ? 'hammered' : note.articulation === 'pull' ? 'pulled off' : 'slid to';
