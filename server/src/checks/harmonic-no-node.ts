// harmonic.no-node: a harmonic is asked for where no open string has that note among its nodes.
import { pitchName } from './shared/pitch.ts';
import { harmonicsOut, stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const harmonicNoNode = windowCheck('harmonic.no-node', ({ notes }) => ({
  message: `No string gives ${notes.flatMap((note) => note.sounding.map(pitchName)).join(' ')} as a natural harmonic. Take !open! out to stop the note, or write the pitch of a node: the octave, octave and fifth, or two octaves above an open string.`,
  fixes: [...harmonicsOut(notes), ...stringsLetGo(notes)],
}));
