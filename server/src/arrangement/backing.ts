// A bass line to go with a melody: the root of the chord on the strong beat, its fifth on the next (common practice), fingered like any part.

import { type ChordName, type NamedPitch, readChordName } from '../score/chord-name.ts';
import { add, compare, equal, sub } from '../score/fraction.ts';
import type { Bar, Fraction, Voice } from '../score/types.ts';
import { applyEdits } from '../text/span.ts';
import type { ArrangeRequest, ArrangeTools } from './arrange.ts';
import { arrangedHeader } from './arranged-header.ts';
import { bassBeats } from './bass-beats.ts';
import { chordsOf, suggestionText } from './chord-names.ts';
import { composeBody, rowsFrom } from './compose.ts';
import { inkEdits } from './ink.ts';
import { type Interval, intervalFor, midiOf, movedChordText, movedPitch, type SpelledPitch } from './interval.ts';
import { type Melody, melodyOf, type Tone } from './melody.ts';
import { planStage } from './stages.ts';
import { suggestChords, suggestionComment } from './suggest-chords.ts';
import type { Placed } from './thinning.ts';
import type { Plan, ScoreStage } from './types.ts';

export type BackingRequest = Pick<ArrangeRequest, 'number' | 'keyShift' | 'tempo' | 'pins'>;

export type Backing =
  | { readonly kind: 'backing'; readonly text: string; readonly chords: 'written' | 'suggested'; readonly plan: Plan | null }
  | { readonly kind: 'impossible'; readonly message: string };

/** Makes a root-and-fifth line for the first voice of a tune, from its chord symbols, else from suggested ones that are marked as such. Same input, same bytes. */
export function backing(source: ScoreStage, request: BackingRequest, tools: ArrangeTools): Backing {
  const voice = source.score.voices[0];
  if (voice === undefined || voice.bars.length === 0) return { kind: 'impossible', message: 'This tune has no bars to play under.' };
  const by = intervalFor(source.score.key, request.keyShift);
  const written = chordsOf(voice);
  const suggested = written.length === 0 || written.every((chord) => chord.suggested);
  const chords = written.length > 0 ? written.map(({ bar, onset, text }) => ({ bar, onset, name: text })) : suggestChords(voice);
  const lowest = Math.max(lowestE, Math.min(...tools.config.setup.tuning.strings.map((string) => string.open + string.lowestStop)));
  const played = playedLine(voice, chords, by, lowest);
  if (played.line.length === 0)
    return { kind: 'impossible', message: 'No chord of this tune can be read: write them as "D", "Em" or "A7".' };
  const melody: Melody = {
    ...melodyOf(voice),
    rests: played.rests,
    chords: chords.map(({ bar, onset, name }) => ({ bar, onset, text: suggested ? suggestionText(movedChordText(name, by)) : name })),
  };
  const header = arrangedHeader(source, { ...request, version: 'backing' }, by, null) + (suggested ? `${suggestionComment}\n` : '');
  const body = composeBody({ melody, line: played.line, unit: source.score.unit, by, rowOf: rowsFrom(source, voice) });
  const stage = planStage(tools.read(header + body), 0, tools.config, tools.tables);
  const edits = request.pins === 'none' ? [] : inkEdits(stage, { density: request.pins, form: 'inline' });
  return {
    kind: 'backing',
    text: applyEdits(stage.text, edits),
    chords: suggested ? 'suggested' : 'written',
    plan: stage.fingered[0]?.plan ?? null,
  };
}

/** E1, the lowest note of the usual tuning: roots lie in the octave from here, even where a string goes lower. */
const lowestE = 28;

interface Chord {
  readonly bar: number;
  readonly onset: Fraction;
  readonly name: string;
}

/** One note of the line: which chord, and whether its bass note or its fifth. */
interface Step {
  readonly chord: ChordName;
  readonly name: string;
  readonly degree: 'root' | 'fifth';
  readonly bar: number;
}

interface Line {
  readonly line: readonly Placed[];
  readonly rests: Melody['rests'];
}

/** Roots and fifths on the beats of the bass and at each change of chord, and rests where no chord sounds. */
function playedLine(voice: Voice, chords: readonly Chord[], by: Interval, lowest: number): Line {
  const line: Placed[] = [];
  const rests: Melody['rests'][number][] = [];
  let before: Step | null = null;
  for (const bar of voice.bars) {
    const beats = bassBeats(voice, bar);
    const times = attackTimes(bar, beats, chords);
    times.forEach((onset, i) => {
      const duration = sub(times[i + 1] ?? add(bar.onset, bar.duration), onset);
      const sounding = chords.findLast((chord) => compare(chord.onset, onset) <= 0);
      const chord = sounding === undefined || beats.length === 0 ? null : readChordName(sounding.name);
      if (chord === null || chord === 'none') {
        rest(rests, bar.index, onset, duration);
        before = null;
        return;
      }
      before = stepAfter(before, { chord, name: sounding!.name, bar: bar.index }, i === 0 && beats.length > 1);
      line.push(placed(before, onset, duration, line.length, by, lowest));
    });
  }
  return { line, rests };
}

/** Adds a rest, joined to the one before in its bar. */
function rest(rests: Melody['rests'][number][], bar: number, onset: Fraction, duration: Fraction): void {
  const last = rests.at(-1);
  const joined = last?.bar === bar && equal(add(last.onset, last.duration), onset);
  if (joined) rests[rests.length - 1] = { ...last, duration: add(last.duration, duration) };
  else rests.push({ bar, onset, duration });
}

/** The bar's start, the beats of the bass, and the changes of chord; in a bar without beats (a pickup) its start alone. */
function attackTimes(bar: Bar, beats: readonly Fraction[], chords: readonly Chord[]): readonly Fraction[] {
  const changes =
    beats.length === 0
      ? []
      : chords.filter((chord, i) => chord.bar === bar.index && chord.name !== chords[i - 1]?.name).map((chord) => chord.onset);
  const all = [bar.onset, ...beats, ...changes].sort(compare);
  return all.filter((at, i) => i === 0 || !equal(at, all[i - 1]!));
}

/** The root at a change of chord and on the first beat of an even bar; else root and fifth by turns. */
function stepAfter(before: Step | null, now: Omit<Step, 'degree'>, strong: boolean): Step {
  const goesOn = before !== null && before.name === now.name && before.bar >= now.bar - 1;
  return { ...now, degree: goesOn && !strong && before.degree === 'root' ? 'fifth' : 'root' };
}

function placed(step: Step, onset: Fraction, duration: Fraction, id: number, by: Interval, lowest: number): Placed {
  const root = lowestAt(movedName(step.chord.bass, by), lowest);
  const pitch = step.degree === 'root' ? root : fifthNear(step.chord, by, root, lowest);
  const spelled = unmoved(pitch, by);
  const tone: Tone = {
    id,
    bar: step.bar,
    onset,
    duration,
    spelled,
    midi: midiOf(spelled),
    onGrid: true,
    syncopated: false,
    pickup: false,
  };
  return { tone, sounding: midiOf(pitch), duration, slur: 'none' };
}

const movedName = (name: NamedPitch, by: Interval): NamedPitch => movedPitch({ ...name, octave: 4 }, by);

/** The composer moves what it is given by the interval: this is what comes out as `pitch`. */
const unmoved = (pitch: SpelledPitch, { steps, semitones }: Interval): SpelledPitch =>
  movedPitch(pitch, { steps: -steps, semitones: -semitones });

/** The lowest pitch of a name at or above `lowest`. */
function lowestAt({ letter, alter }: NamedPitch, lowest: number): SpelledPitch {
  const low = { letter, alter, octave: 0 };
  return { ...low, octave: Math.ceil((lowest - midiOf(low)) / 12) };
}

/** The chord's fifth under its bass note where the instrument has it, else above. */
function fifthNear(chord: ChordName, by: Interval, root: SpelledPitch, lowest: number): SpelledPitch {
  const name = movedPitch({ ...movedName(chord.root, by), octave: 4 }, { steps: 4, semitones: chord.fifth });
  const low = lowestAt(name, lowest);
  return midiOf(low) < midiOf(root) ? low : { ...low, octave: low.octave + Math.max(0, Math.ceil((midiOf(root) - midiOf(low)) / 12)) };
}
