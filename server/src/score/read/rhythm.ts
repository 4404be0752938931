// Broken rhythm and tuplets.
import type { TupletItem } from '../../abc/tree/items.ts';
import type { Span } from '../../text/span.ts';
import { DEEPEST_TUPLETS } from '../conventions.ts';
import { add, div, equal, fraction, mul, sub } from '../fraction.ts';
import { isCompound } from '../meter.ts';
import type { Fraction } from '../types.ts';
import { reportAt, type TuneState } from './tune-state.ts';
import type { NoteDraft, RestDraft, VoiceState } from './voice-state.ts';

/** `>`: the note before gains what the next one loses; `<` the other way. */
export function addBroken(tune: TuneState, voice: VoiceState, toward: 'left' | 'right', degree: number, span: Span): void {
  const short = fraction(1, 2 ** degree);
  const long = sub(fraction(2, 1), short);
  const last = voice.last;
  if (!last || voice.broken) {
    reportBroken(tune, toward, degree, span);
    return;
  }
  const before = last.duration;
  stretch(voice, last, toward === 'right' ? long : short);
  voice.broken = { factor: toward === 'right' ? short : long, toward, degree, span, before };
}

const signOf = (toward: 'left' | 'right', degree: number): string => (toward === 'right' ? '>' : '<').repeat(degree);

function reportBroken(tune: TuneState, toward: 'left' | 'right', degree: number, span: Span): void {
  reportAt(tune, 'text.broken-without-note', span, signOf(toward, degree));
}

/** The bar ends: broken rhythm and tuplets that still wait for notes are dropped and reported, so that the next bar is read as it stands. */
export function endRhythms(tune: TuneState, voice: VoiceState): void {
  if (voice.broken) {
    reportBroken(tune, voice.broken.toward, voice.broken.degree, voice.broken.span);
    // The note before has its own length again.
    if (voice.last) stretch(voice, voice.last, div(voice.broken.before, voice.last.duration));
    voice.broken = null;
  }
  for (const { span, left } of voice.tuplets) reportAt(tune, 'text.tuplet-unfinished', span, `${left} still to come`);
  if (voice.tuplets.length > 0) voice.tuplets = [];
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

export function beginTuplet(voice: VoiceState, { p, q, r }: TupletItem, span: Span): void {
  if (voice.tuplets.length >= DEEPEST_TUPLETS) return;
  const time = q ?? defaultTime(p, isCompound(voice.meter));
  voice.tuplets.push({ factor: fraction(time, p), left: r ?? p, span });
}

/** The next note's length with tuplets and broken rhythm applied to it; uses up one note of each. */
export function inRhythm(tune: TuneState, voice: VoiceState, plain: Fraction): Fraction {
  const length = voice.tuplets.length === 0 ? plain : inTuplets(voice, plain);
  const broken = voice.broken;
  if (!broken) return length;
  voice.broken = null;
  if (!equal(broken.before, length)) reportAt(tune, 'text.broken-unequal', broken.span, signOf(broken.toward, broken.degree));
  return mul(length, broken.factor);
}

function inTuplets(voice: VoiceState, plain: Fraction): Fraction {
  let length = plain;
  for (const tuplet of voice.tuplets) {
    length = mul(length, tuplet.factor);
    tuplet.left--;
  }
  if (voice.tuplets.some((tuplet) => tuplet.left <= 0)) voice.tuplets = voice.tuplets.filter((tuplet) => tuplet.left > 0);
  return length;
}
