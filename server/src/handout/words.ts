// The words around the music, the same on every kind of handout: tempo, key and meter, credit, caution.
import type { Plan } from '../arrangement/types.ts';
import { isFarBeyond } from '../score/far-beyond.ts';
import { noteValueName } from '../score/note-values.ts';
import type { Score } from '../score/types.ts';

/** `half note = 96`, as the tune says; empty without a tempo. */
export const askedTempoText = ({ tempo }: Plan): string => (tempo ? `${noteValueName(tempo.beat)} = ${rounded(tempo.bpm)}` : '');

/** `Half note: comfortable to 104, limit 122`, as far as known; empty where no time binds, or only far beyond the tune's tempo. */
export function topTempoText({ topTempo, tempo }: Plan): string {
  if (isFarBeyond(topTempo.comfortable, tempo?.bpm ?? null)) return '';
  const tops = [
    topTempo.comfortable === null ? '' : `comfortable to ${Math.floor(topTempo.comfortable)}`,
    topTempo.limit === null ? '' : `limit ${Math.floor(topTempo.limit)}`,
  ].filter((text) => text !== '');
  const name = noteValueName(topTempo.beat);
  return tops.length === 0 ? '' : `${name[0]!.toUpperCase()}${name.slice(1)}: ${tops.join(', ')}`;
}

const rounded = (bpm: number): string => String(Math.round(bpm * 10) / 10);

/** Composer, origin and source of a tune in one line; empty if it names none. */
export function creditText(score: Score): string {
  const of = (letter: string): string =>
    score.texts
      .filter((text) => text.letter === letter)
      .map((text) => text.text)
      .join(', ');
  const source = of('S');
  const origin = of('O');
  return [of('C'), origin === '' ? '' : `(${origin})`, source === '' ? '' : `Source: ${source}`].filter((text) => text !== '').join(' ');
}

/** Said wherever stretches, thumb position or steps of tempo appear. */
export const caution =
  'Stop on pain, numbness or tingling, and rest; build tempo and stretch slowly. A teacher or clinician decides what suits your hand.';

/** Whether a plan asks for what can strain a hand: open (extended) frames or thumb position. */
export const strains = (plan: Plan): boolean =>
  plan.notes.some((note) => note.hand !== null && (note.hand.frame === 'open' || note.hand.frame === 'thumb'));

/** The key as a player names it: `D`, `Am`, without clef and transposition. */
export const keyName = (score: Score): string =>
  score.keyText
    .replace(/\s*\b(?:clef|octave|transpose|middle|m|stafflines|score|sound|shift)=\S+/gi, '')
    .replace(/\s+(?:treble|alto|tenor|bass|perc|none)\S*/gi, '')
    .trim();
