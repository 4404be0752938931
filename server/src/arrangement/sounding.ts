// The one place that decides at which octave a bass part sounds.

import type { ClefValue } from '../abc/tree/fields.ts';
import { compare } from '../score/fraction.ts';
import type { Fraction, Head, Voice } from '../score/types.ts';

/** The clef in force at a place of the voice. */
export function clefAt(voice: Voice, onset: Fraction): ClefValue {
  let clef = voice.clef;
  for (const change of voice.clefChanges) if (compare(change.onset, onset) <= 0) clef = change.clef;
  return clef;
}

/**
 * Sounding pitch (MIDI) of a head of a bass part. The bass sounds an octave below what is written. A clef suffix -8 or
 * `transpose=-12` says that the pitch by the standard is already the sounding one; `octave=` moves the written note too
 * and says nothing of the kind. (Sounding an octave lower than written: common practice, all clefs.)
 */
export function soundingPitch(head: Head, clef: ClefValue): number {
  const transpose = head.midi - head.written - 12 * clef.octave;
  const lowered = clef.octave === -1 || transpose === -12;
  return lowered ? head.midi : head.midi - 12;
}
