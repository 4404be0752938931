// range.off-board: a note beyond the end of the fingerboard, or beyond it on the string it is pinned to.

import { pitchName } from './shared/pitch.ts';
import { stringsLetGo } from './shared/remedies.ts';
import { windowCheck } from './shared/windows.ts';

export const rangeOffBoard = windowCheck('range.off-board', ({ notes, part }) => {
  const names = notes.flatMap((note) => note.sounding.map(pitchName)).join(' ');
  const pinned = notes.flatMap((note) => note.pins.flatMap((pin) => pin.string?.value ?? []));
  const where = pinned.length > 0 ? `the ${pinned[0]} string has no such place` : `no string has a place for it`;
  return {
    message: `${names}: ${where} between the open string and stop ${part.setup.top}. Choose another string, or another octave.`,
    fixes: stringsLetGo(notes),
  };
});
