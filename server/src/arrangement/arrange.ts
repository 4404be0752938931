// Arranging: from a melody to the text of a low or high bass version, with a report of what became of each note.
import type { Book } from '../abc/tree/tree.ts';
import type { TableCache } from '../fingering/index.ts';
import { compare, toNumber } from '../score/fraction.ts';
import type { Fraction, NoteId } from '../score/types.ts';
import { applyEdits } from '../text/span.ts';
import { arrangedHeader } from './arranged-header.ts';
import { composeBody, rowsFrom } from './compose.ts';
import { inkEdits } from './ink.ts';
import { type Interval, intervalFor } from './interval.ts';
import { type Melody, melodyOf, type Tone } from './melody.ts';
import { chooseOctaves, type OctaveChoice, type Phrase, registers } from './octave-choice.ts';
import { type Judged, type LeastThinning, leastThinning, order, rungs } from './phrase-thinning.ts';
import { planStage, scoreStage } from './stages.ts';
import { dropped, type Pace, type Placed, type Slurred, slurred, type Thinning } from './thinning.ts';
import type { FileConfig, Plan, PlanStage, ScoreStage } from './types.ts';
import { digestsText, madeDigests, sourceDigests } from './versions.ts';

export interface ArrangeRequest {
  readonly version: 'low' | 'high';
  /** Number for the `X:` field. */
  readonly number: number;
  /** Semitones by which the key is moved; 0 keeps it. */
  readonly keyShift: number;
  /** Tempo to be met; null for the source's own. */
  readonly tempo: { readonly beat: Fraction; readonly bpm: number } | null;
  readonly thin: Thinning | 'auto';
  readonly pins: 'none' | 'changes' | 'all';
}

/** What arranging needs from outside its layer: a reader of text and the engine's tables. */
export interface ArrangeTools {
  readonly read: (text: string) => Book;
  readonly tables: TableCache;
  readonly config: FileConfig;
}

export type NoteFate = 'kept' | 'octave' | 'slurred' | 'dropped' | 'lengthened';

/** What became of one note of the source. */
export interface NoteReport {
  readonly note: NoteId;
  readonly from: number;
  readonly to: number;
  readonly bar: number;
  readonly fate: NoteFate;
  /** Semitones below the source; null for a dropped note. */
  readonly below: number | null;
  /** The rung of its phrase. */
  readonly thinning: Thinning;
  readonly why: string;
}

export type Arranged =
  | {
      readonly kind: 'arranged';
      readonly text: string;
      /** The highest rung that any phrase is thinned by. */
      readonly thinning: Thinning;
      readonly report: readonly NoteReport[];
      /** How it is fingered; null where the source's first voice gives no part. */
      readonly plan: Plan | null;
      readonly warnings: readonly string[];
    }
  | { readonly kind: 'impossible'; readonly message: string };

/** Makes a version of the first voice of a tune. Same input, same bytes. */
export function arrange(source: ScoreStage, request: ArrangeRequest, tools: ArrangeTools): Arranged {
  const voice = source.score.voices[0];
  const melody = voice === undefined ? null : melodyOf(voice);
  if (melody === null || melody.tones.length === 0) return { kind: 'impossible', message: 'This tune has no notes to arrange.' };
  const by = intervalFor(source.score.key, request.keyShift);
  const work: Work = { source, melody, request, tools, by, pace: paceOf(source, request, tools.config), drafts: new Map() };
  const choice = chooseOctaves(melody, registerOf(request, tools.config), request.keyShift);
  if (choice.rank[0] > 0) return { kind: 'impossible', message: outOfRange(choice, work) };
  const fitted = fittest(work, choice);
  const { line } = fitted.made;
  return {
    kind: 'arranged',
    text: finished(work, line),
    thinning: fitted.rungs.reduce((a, b) => (rungs.indexOf(b) > rungs.indexOf(a) ? b : a), 'none'),
    plan: draft(work, line).fingered[0]?.plan ?? null,
    report: reportOf(work, choice, fitted.made),
    warnings: [
      ...(fitted.troubles.length > 0 ? [tooFast] : []),
      ...(choice.exact ? [] : [notProven]),
      ...(fitted.exact ? [] : [thinnedRoughly]),
    ],
  };
}

const tooFast = 'No thinning makes this comfortable at the tempo; play it slower, or see the findings.';
const notProven = 'The tune has very many different phrases: the octaves were chosen without looking at every assignment.';
const thinnedRoughly = 'The tune has very many different phrases: some may be thinned more than they need be.';

interface Work {
  readonly source: ScoreStage;
  readonly melody: Melody;
  readonly request: ArrangeRequest;
  readonly tools: ArrangeTools;
  readonly by: Interval;
  readonly pace: Pace | null;
  readonly drafts: Map<string, PlanStage>;
}

function registerOf(request: ArrangeRequest, config: FileConfig) {
  const { strings } = config.setup.tuning;
  const opens = strings.map((string) => string.open);
  return {
    ...registers[request.version],
    lowest: Math.min(...strings.map((s) => s.open + s.lowestStop)),
    highest: Math.max(...opens) + config.setup.top,
  };
}

function paceOf(source: ScoreStage, request: ArrangeRequest, config: FileConfig): Pace | null {
  const own = source.score.tempos.find((t) => t.beat !== null && t.bpm !== null && t.bpm > 0);
  const beat = request.tempo?.beat ?? own?.beat ?? null;
  const bpm = request.tempo?.bpm ?? own?.bpm ?? null;
  if (beat === null || bpm === null) return null;
  const { setup } = config;
  return { pluck: setup.pluck, open: setup.tuning.strings.map((s) => s.open), wholeSeconds: 60 / (bpm * toNumber(beat)) };
}

function outOfRange(choice: OctaveChoice, work: Work): string {
  const { lowest, highest } = registerOf(work.request, work.tools.config);
  const best = choice.best[0] ?? [];
  const wide = choice.phrases.find((phrase) => spanOf(phrase) > highest - lowest);
  if (wide !== undefined) return tooWide(wide, highest - lowest);
  const bars = choice.phrases.flatMap((phrase, i) =>
    phrase.tones.filter((t) => outside(t.midi + work.request.keyShift - (best[i] ?? 0), lowest, highest)).map((t) => t.bar + 1),
  );
  return `No octave keeps whole phrases in range: see bar ${[...new Set(bars)].sort((a, b) => a - b).join(', ')}. Choose another key with --key, or shorten the phrase.`;
}

const spanOf = ({ tones }: Phrase): number => {
  const pitches = tones.map((tone) => tone.midi);
  return Math.max(...pitches) - Math.min(...pitches);
};

/** A phrase keeps one octave, so one that is wider than the instrument is refused: folding it would make another tune of it. */
function tooWide(phrase: Phrase, range: number): string {
  const spans = `spans ${spanOf(phrase)} semitones, and this bass has ${range} from its lowest to its highest note: no octave and no key holds it whole.`;
  const { bars } = phrase;
  if (bars.length === 1) return `Bar ${bars[0]! + 1} ${spans} Divide it with a bar line where the octave may change.`;
  return `The phrase of bars ${bars[0]! + 1} to ${bars.at(-1)! + 1} ${spans} Put a double bar or a part label (P:) where the octave may change.`;
}

const outside = (pitch: number, low: number, high: number): boolean => pitch < low || pitch > high;

/** A line for one assignment of octaves, and how it was thinned. */
interface Fitting {
  readonly line: readonly Placed[];
  readonly dropped: ReadonlyMap<NoteId, string>;
  readonly distances: readonly number[];
  /** One a phrase. */
  readonly rungs: readonly Thinning[];
}

/** The least thinning that a hand can play at the tempo; among equally good octaves the one thinned less, then the cheaper fingering. */
function fittest(work: Work, choice: OctaveChoice): LeastThinning<Fitting> {
  const fitted = choice.best.map((distances) => thinnedFor(work, choice, distances));
  const cost = ({ made }: LeastThinning<Fitting>): number => costOf(work, made.line) ?? Number.MAX_SAFE_INTEGER;
  const height = (one: LeastThinning<Fitting>): readonly number[] => one.rungs.map((rung) => rungs.indexOf(rung));
  return fitted.reduce((a, b) => {
    const better = b.troubles.length - a.troubles.length || order(height(b), height(a)) || cost(b) - cost(a);
    return better < 0 ? b : a;
  });
}

function thinnedFor(work: Work, choice: OctaveChoice, distances: readonly number[]): LeastThinning<Fitting> {
  const { thin } = work.request;
  const judge = (chosen: readonly Thinning[]): Judged<Fitting> => judged(work, choice, distances, chosen);
  if (thin === 'auto')
    return leastThinning(
      choice.phrases.map((phrase) => phrase.key),
      judge,
    );
  const chosen = choice.phrases.map(() => thin);
  return { ...judge(chosen), rungs: chosen, exact: true };
}

/** The line with each phrase at its rung, and where it is too fast to pluck, else where no hand plays it. */
function judged(work: Work, choice: OctaveChoice, distances: readonly number[], chosen: readonly Thinning[]): Judged<Fitting> {
  const phraseOf = new Map(choice.phrases.flatMap((phrase, i) => phrase.tones.map((tone) => [tone.id, i] as const)));
  const rungOf = (tone: Tone): Thinning => chosen[phraseOf.get(tone.id)!]!;
  const less = dropped(plainLine(work, choice, distances), work.melody, rungOf);
  const whole = less.line.filter(({ tone }) => rungOf(tone) === 'none').map(({ tone }) => tone.id);
  const { line, overfull } = work.pace === null ? { ...less, overfull: [] } : playableSlurs(work, less.line, work.pace, whole);
  const stuck = overfull.length > 0 ? overfull : unplayable(work, line);
  const troubles = stuck.map((at) => [...new Set(at.map((i) => phraseOf.get(line[i]!.tone.id)!))]);
  return { made: { line, dropped: less.dropped, distances, rungs: chosen }, troubles };
}

function plainLine(work: Work, choice: OctaveChoice, distances: readonly number[]): readonly Placed[] {
  const line = choice.phrases.flatMap((phrase, i) =>
    phrase.tones.map(
      (tone): Placed => ({ tone, sounding: tone.midi + work.request.keyShift - distances[i]!, duration: tone.duration, slur: 'none' }),
    ),
  );
  return line.sort((a, b) => compare(a.tone.onset, b.tone.onset));
}

/** Slurs that meet the pace as far as they can and that a hand plays: pairs inside an unplayable window are not taken again, nor pairs of a phrase that stays `whole`. */
function playableSlurs(work: Work, line: readonly Placed[], pace: Pace, whole: readonly NoteId[]): Slurred {
  const banned = new Set<NoteId>(whole);
  for (;;) {
    const made = slurred(line, work.melody, pace, banned);
    const bad = made.overfull.length > 0 ? [] : unplayableSlurs(work, made.line);
    if (bad.length === 0) return made;
    for (const id of bad) banned.add(id);
  }
}

/** Indices of the notes of each unplayable passage. */
function unplayable(work: Work, line: readonly Placed[]): readonly (readonly number[])[] {
  const fingered = draft(work, line).fingered[0];
  if (fingered === undefined || fingered.plan.playable) return [];
  const at = new Map(fingered.part.notes.map((note, i) => [note.id, i]));
  return fingered.plan.windows.map((window) => window.notes.map((id) => at.get(id)!));
}

/** First notes of slurs that lie in an unplayable passage. */
function unplayableSlurs(work: Work, line: readonly Placed[]): readonly NoteId[] {
  const inside = new Set(unplayable(work, line).flat());
  return line.flatMap((placed, i) => (placed.slur === 'first' && (inside.has(i) || inside.has(i + 1)) ? [placed.tone.id] : []));
}

function costOf(work: Work, line: readonly Placed[]): number | null {
  return draft(work, line).fingered[0]?.plan.cost ?? null;
}

/** The version as read again, without pins; searched once for each text. */
function draft(work: Work, line: readonly Placed[]): PlanStage {
  const text = textOf(work, line);
  const known = work.drafts.get(text);
  if (known !== undefined) return known;
  const made = planStage(work.tools.read(text), 0, work.tools.config, work.tools.tables);
  work.drafts.set(text, made);
  return made;
}

function textOf(work: Work, line: readonly Placed[]): string {
  const { source, request, by, melody } = work;
  return (
    arrangedHeader(source, request, by, null) +
    composeBody({ melody, line, unit: source.score.unit, by, rowOf: rowsFrom(source, melody.voice) })
  );
}

/** Fingered, inked, and with the digests by which later changes are told apart. */
function finished(work: Work, line: readonly Placed[]): string {
  const { source, request, by, tools } = work;
  const stage = draft(work, line);
  const edits = request.pins === 'none' ? [] : inkEdits(stage, { density: request.pins, form: 'inline' });
  const inked = applyEdits(stage.text, edits);
  const made = digestsText(madeDigests(scoreStage(tools.read(inked), 0)));
  const plain = arrangedHeader(source, request, by, null);
  return arrangedHeader(source, request, by, { from: digestsText(sourceDigests(source)), made }) + inked.slice(plain.length);
}

function reportOf(work: Work, choice: OctaveChoice, fitting: Fitting): readonly NoteReport[] {
  const kept = new Map(fitting.line.map((placed) => [placed.tone.id, placed]));
  const spans = new Map(work.melody.voice.notes.map((note) => [note.id, note]));
  return choice.phrases.flatMap((phrase, i) =>
    phrase.tones.map((tone): NoteReport => {
      const { from, to } = spans.get(tone.id)!;
      const below = fitting.distances[i]!;
      const base = { note: tone.id, from, to, bar: tone.bar + 1, thinning: fitting.rungs[i]! };
      const placed = kept.get(tone.id);
      if (placed !== undefined) return { ...base, below, ...fateOf(tone, placed, below, work.request.version) };
      const why = `${fitting.dropped.get(tone.id) ?? 'left out'}; ${barsOf(phrase)} thinned to ${words[fitting.rungs[i]!]}`;
      return { ...base, fate: 'dropped', below: null, why };
    }),
  );
}

const words: Readonly<Record<Thinning, string>> = {
  none: 'nothing less',
  slur: 'slurs',
  run: 'the notes that carry the tune',
  quarter: 'the beats',
};

function barsOf({ bars }: Phrase): string {
  const [first, last] = [bars[0]! + 1, bars.at(-1)! + 1];
  return first === last ? `bar ${first} is` : `bars ${first} to ${last} are`;
}

function fateOf(tone: Tone, placed: Placed, below: number, version: 'low' | 'high'): Pick<NoteReport, 'fate' | 'why'> {
  const { usual } = registers[version];
  if (placed.slur === 'second') return { fate: 'slurred', why: 'slurred to the note before to save a pluck' };
  if (compare(placed.duration, tone.duration) > 0) return { fate: 'lengthened', why: 'sounds on over what was left out' };
  if (below !== usual) return { fate: 'octave', why: `its phrase lies better ${below} semitones down than ${usual}` };
  return { fate: 'kept', why: `${below} semitones down, as usual for a ${version} version` };
}
