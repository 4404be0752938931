// Chords for a melody that has none: simple triads of its key, the cheapest way through by exact search, and marked as suggestions.
import { add, compare, sub, toNumber } from '../score/fraction.ts';
import { signatureOf } from '../score/index.ts';
import type { Bar, Fraction, ScoreNote, Voice } from '../score/types.ts';
import type { Edit } from '../text/span.ts';
import { bassBeats } from './bass-beats.ts';
import { chordsOf, suggestionText } from './chord-names.ts';
import { type Melody, melodyOf, type Tone } from './melody.ts';
import { letters, naturals } from './pitch-text.ts';
import type { ScoreStage } from './types.ts';

export interface SuggestedChord {
  readonly bar: number;
  readonly onset: Fraction;
  readonly name: string;
}

/** A triad of the key. */
interface Triad {
  readonly name: string;
  /** Pitch classes, 0 is C. */
  readonly pitches: readonly number[];
  /** On the first, fourth and fifth degrees, and a major one on a flat seventh. */
  readonly primary: boolean;
  readonly tonic: boolean;
}

/** A stretch from one beat of the bass to the next. */
interface Stretch {
  readonly bar: Bar;
  readonly onset: Fraction;
  readonly firstOfBar: boolean;
  /** Whether a note begins with it, over which a chord can be written. */
  readonly mayChange: boolean;
  /** Last of its part: tunes come home there. */
  readonly last: boolean;
  readonly tones: readonly { readonly pitch: number; readonly weight: number }[];
}

/** What speaks against a chord, in eighths of a note that is not in it (chosen on every second tune of open corpora that has chords; the tests measure the agreement with printed ones on the others). */
const costs = { change: 2, changeInBar: 5, secondary: 3, endAway: 8 };
/** How much an eighth counts of a tone that sounds where the bass plays, and of another (chosen as the costs are). */
const weights = { first: 4, later: 2 };

/** Chords at their changes, for a melody without any; the same for the same notes. */
export function suggestChords(voice: Voice): readonly SuggestedChord[] {
  const melody = melodyOf(voice);
  if (melody.tones.length === 0) return [];
  const stretches = stretchesOf(melody);
  const names = cheapest(stretches);
  return stretches.flatMap(({ bar, onset }, i) => (names[i] === names[i - 1] ? [] : [{ bar: bar.index, onset, name: names[i]! }]));
}

function stretchesOf(melody: Melody): readonly Stretch[] {
  const { voice } = melody;
  const starts = new Set(writtenOver(voice).map((note) => key(note.onset)));
  const lasts = new Set(melody.sections.map((section) => section.bars.at(-1)));
  return voice.bars.flatMap((bar) => {
    const beats = bassBeats(voice, bar);
    return beats.map((onset, i): Stretch => {
      const end = beats[i + 1] ?? add(bar.onset, bar.duration);
      const tones = melody.tones.flatMap((tone) => weighed(tone, onset, end));
      const last = lasts.has(bar.index) && i === beats.length - 1;
      return { bar, onset, firstOfBar: i === 0, mayChange: starts.has(key(onset)), last, tones };
    });
  });
}

const key = ({ num, den }: Fraction): string => `${num}/${den}`;

/** Notes over which a chord can be written. */
const writtenOver = (voice: Voice): readonly ScoreNote[] => voice.notes.filter((note) => note.kind === 'note' && note.layer === 0);

/** A tone's part in a stretch: eighths that it sounds, at most a half note, times the weight of its place. */
function weighed(tone: Tone, from: Fraction, to: Fraction): Stretch['tones'] {
  const begins = compare(tone.onset, from) < 0 ? from : tone.onset;
  const ends = add(tone.onset, tone.duration);
  const sounds = toNumber(sub(compare(ends, to) < 0 ? ends : to, begins)) * 8;
  if (sounds <= 0) return [];
  const place = compare(begins, from) === 0 ? weights.first : weights.later;
  return [{ pitch: tone.midi % 12, weight: Math.min(sounds, 4) * place }];
}

/** The six major and minor triads of the scale; in minor the major one on the fifth degree too, as it is commonly played. */
function triadsOf({ key: keyValue }: Bar): readonly Triad[] {
  const signature = signatureOf(keyValue);
  const tonic = letters.indexOf(keyValue.tonic?.letter ?? 'C');
  const pitchAt = (step: number): number => naturals[letters[step % 7]!] + signature[step % 7]!;
  const home = pitchAt(tonic);
  const triads = [0, 3, 4, 6, 5, 1, 2].flatMap((degree): readonly Triad[] => {
    const root = pitchAt(tonic + degree);
    const third = (pitchAt(tonic + degree + 2) - root + 24) % 12;
    if ((pitchAt(tonic + degree + 4) - root + 24) % 12 !== 7) return [];
    const letter = letters[(tonic + degree) % 7]!;
    const alter = signature[(tonic + degree) % 7]!;
    const name = letter + (alter > 0 ? '#' : alter < 0 ? 'b' : '');
    const made = (minor: boolean): Triad => ({
      name: name + (minor ? 'm' : ''),
      pitches: [root, root + (minor ? 3 : 4), root + 7].map((pitch) => (pitch + 24) % 12),
      primary: [0, 3, 4].includes(degree) || (degree === 6 && !minor && (root - home + 24) % 12 === 10),
      tonic: degree === 0,
    });
    return keyValue.mode === 'minor' && degree === 4 ? [made(third === 3), made(false)] : [made(third === 3)];
  });
  return [...new Map(triads.map((triad) => [triad.name, triad])).values()];
}

interface Way {
  readonly cost: number;
  readonly triad: Triad;
  readonly before: Way | null;
}

/** One chord a stretch, of the least cost together (the shortest path through all of them); of equals the earlier in the list of triads. */
function cheapest(stretches: readonly Stretch[]): readonly string[] {
  let ways: readonly Way[] = [];
  stretches.forEach((stretch, i) => {
    ways = triadsOf(stretch.bar).flatMap((triad): readonly Way[] => {
      const own = costOf(triad, stretch);
      if (i === 0) return [{ cost: own, triad, before: null }];
      const from = ways.filter((way) => stretch.mayChange || way.triad.name === triad.name);
      const costs = from.map((way) => way.cost + own + changeCost(way.triad, triad, stretch));
      const least = Math.min(...costs);
      return from.length === 0 ? [] : [{ cost: least, triad, before: from[costs.indexOf(least)]! }];
    });
  });
  const names: string[] = [];
  for (let way = ways.reduce<Way | null>((a, b) => (a === null || b.cost < a.cost ? b : a), null); way !== null; way = way.before)
    names.unshift(way.triad.name);
  return names;
}

function costOf(triad: Triad, stretch: Stretch): number {
  const outside = stretch.tones.filter(({ pitch }) => !triad.pitches.includes(pitch)).reduce((sum, { weight }) => sum + weight, 0);
  return outside + (triad.primary ? 0 : costs.secondary) + (stretch.last && !triad.tonic ? costs.endAway : 0);
}

function changeCost(before: Triad, after: Triad, stretch: Stretch): number {
  if (before.name === after.name) return 0;
  return stretch.firstOfBar ? costs.change : costs.changeInBar;
}

/** Said once, before the music that has suggestions. */
export const suggestionComment = '% Chords with a question mark are suggestions: made by rule from the melody, not part of the tune.';

/** Edits that write suggestions over a melody without chords; none if it has some. */
export function suggestionEdits(stage: ScoreStage): readonly Edit[] {
  const voice = stage.score.voices[0];
  if (voice === undefined || chordsOf(voice).length > 0) return [];
  const notes = new Map(writtenOver(voice).map((note) => [key(note.onset), note]));
  const made = suggestChords(voice).flatMap(({ onset, name }): readonly Edit[] => {
    const at = notes.get(key(onset))?.from;
    return at === undefined ? [] : [{ span: { from: at, to: at }, insert: `"${suggestionText(name)}"` }];
  });
  const body = stage.tree.lines[stage.tree.bodyStart];
  if (made.length === 0 || body === undefined) return [];
  const lineEnd = /\r\n|\n|\r/.exec(stage.text)?.[0] ?? '\n';
  return [{ span: { from: body.at, to: body.at }, insert: suggestionComment + lineEnd }, ...made];
}

/** Edits that take all suggestions out again, or make them chord symbols of the tune; the comment goes with them. */
export function settleSuggestions(stage: ScoreStage, way: 'remove' | 'keep'): readonly Edit[] {
  const chords = stage.score.voices.flatMap((voice) => chordsOf(voice).filter((chord) => chord.suggested));
  if (chords.length === 0) return [];
  const comments = stage.tree.lines.filter(({ line }) => line.text.trim() === suggestionComment);
  return [
    ...comments.map(({ at, line }): Edit => ({ span: { from: at, to: at + line.text.length }, insert: '' })),
    ...chords.map(({ from, to, text }): Edit => ({ span: { from, to }, insert: way === 'keep' ? `"${text}"` : '' })),
  ].sort((a, b) => a.span.from - b.span.from);
}
