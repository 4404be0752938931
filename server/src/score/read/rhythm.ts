// Broken rhythm and tuplets.
import type { TupletItem } from '../../abc/tree/items.ts';
import { DEEPEST_TUPLETS } from '../conventions.ts';
import { add, fraction, mul, sub } from '../fraction.ts';
import { isCompound } from '../meter.ts';
import type { Fraction } from '../types.ts';
import type { NoteDraft, RestDraft, VoiceState } from './voice-state.ts';

/** `>`: the note before gains what the next one loses; `<` the other way. */
export function addBroken(voice: VoiceState, toward: 'left' | 'right', degree: number): boolean {
  const short = fraction(1, 2 ** degree);
  const long = sub(fraction(2, 1), short);
  const last = voice.last;
  if (!last) return false;
  stretch(voice, last, toward === 'right' ? long : short);
  voice.broken = toward === 'right' ? short : long;
  return true;
}

function stretch(voice: VoiceState, last: NoteDraft | RestDraft, by: Fraction): void {
  last.duration = mul(last.duration, by);
  if ('heads' in last) for (const head of last.heads) head.duration = mul(head.duration, by);
  voice.time = add(last.onset, last.duration);
}

/** Notes in whose time p notes are played, where the tuplet does not say (4.13). */
function defaultTime(p: number, compound: boolean): number {
  switch (p) {
    case 2:
    case 4:
    case 8:
      return 3;
    case 3:
    case 6:
      return 2;
    default:
      return compound ? 3 : 2;
  }
}

export function beginTuplet(voice: VoiceState, { p, q, r }: TupletItem): void {
  if (voice.tuplets.length >= DEEPEST_TUPLETS) return;
  const time = q ?? defaultTime(p, isCompound(voice.meter));
  voice.tuplets.push({ factor: fraction(time, p), left: r ?? p });
}
