// note.fades: a note held longer than a plucked string rings.
import { toTask } from '../arrangement/index.ts';
import type { BassPart } from '../arrangement/types.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';
import { bassParts } from './shared/parts.ts';
import { count } from './shared/words.ts';

export const noteFades: Check<'part'> = {
  codes: ['note.fades'],
  needs: 'part',
  severity: 'info',
  find: (stage) => bassParts(stage).flatMap(findingsIn),
};

/** Time after which nothing is left of a pluck, in microseconds. Measured orchestral pizzicato falls 17-33 dB a second, that is 60 dB in 2 to 3.5 s. */
const silent = 3_500_000;

/** One finding a part, at its first such note: the cause is the tempo. */
function findingsIn(part: BassPart): readonly Finding[] {
  if (part.tempo === null) return [];
  const { notes } = toTask(part);
  const long = part.notes.filter((_, i) => notes[i]!.duration > silent);
  const [first] = long;
  if (first === undefined) return [];
  const longest = Math.max(...notes.map((note) => note.duration)) / 1e6;
  const message = `${count(long.length, 'note is', 'notes are')} held for up to ${longest.toFixed(1)} s; a plucked string is silent after 2 to 3.5 s. Pluck again, fill the time with other notes, or let it rest.`;
  const related = long.slice(1).map((note) => ({ from: note.note.from, to: note.note.to, message: 'So is this one.' }));
  return [finding('note.fades', 'info', first.note, message, { related })];
}
