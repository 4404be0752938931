// Arranging: from a melody to the text of a low or high bass version, with a report of what became of each note.
import type { Book } from '../abc/tree/tree.ts';
import type { TableCache } from '../fingering/index.ts';
import { compare, toNumber } from '../score/fraction.ts';
import type { Fraction, NoteId } from '../score/types.ts';
import { applyEdits } from '../text/span.ts';
import { arrangedHeader } from './arranged-header.ts';
import { composeBody } from './compose.ts';
import { inkEdits } from './ink.ts';
import { type Interval, intervalFor } from './interval.ts';
import { type Melody, melodyOf } from './melody.ts';
import { chooseOctaves, type OctaveChoice, registers } from './octave-choice.ts';
import { planStage, scoreStage } from './stages.ts';
import { dropped, meetsPace, type Pace, type Placed, slurred, type Thinning } from './thinning.ts';
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
  readonly why: string;
}

export type Arranged =
  | {
      readonly kind: 'arranged';
      readonly text: string;
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
  const { line, thinning, dropped: gone, distances, warnings } = fittest(work, choice);
  const text = finished(work, line);
  const plan = draft(work, line).fingered[0]?.plan ?? null;
  return {
    kind: 'arranged',
    text,
    thinning,
    plan,
    report: reportOf(work, choice, distances, line, gone),
    warnings: choice.exact ? warnings : [...warnings, notProven],
  };
}

const notProven = 'The tune has very many different phrases: the octaves were chosen without looking at every assignment.';

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
  const bars = choice.phrases.flatMap((phrase, i) =>
    phrase.tones.filter((t) => outside(t.midi + work.request.keyShift - (best[i] ?? 0), lowest, highest)).map((t) => t.bar + 1),
  );
  return `No octave keeps whole phrases in range: see bar ${[...new Set(bars)].sort((a, b) => a - b).join(', ')}. Choose another key with --key, or shorten the phrase.`;
}

const outside = (pitch: number, low: number, high: number): boolean => pitch < low || pitch > high;

interface Fitting {
  readonly line: readonly Placed[];
  readonly thinning: Thinning;
  readonly dropped: ReadonlyMap<NoteId, string>;
  readonly distances: readonly number[];
  readonly warnings: readonly string[];
}

/** The lowest rung of thinning that a hand can play at the tempo; among equally good octaves the cheaper fingering. */
function fittest(work: Work, choice: OctaveChoice): Fitting {
  const rungs: readonly Thinning[] = work.request.thin === 'auto' ? ['none', 'slur', 'run', 'quarter'] : [work.request.thin];
  let last: Fitting | null = null;
  for (const thinning of rungs) {
    const fittings = choice.best.flatMap((distances) => thinnedFor(work, choice, distances, thinning) ?? []);
    const judged = fittings.map((fitting) => ({ fitting, cost: costOf(work, fitting.line) }));
    const playable = judged.filter((one) => one.cost !== null).sort((a, b) => a.cost! - b.cost!);
    last = (playable[0] ?? judged[0])?.fitting ?? last;
    const meets = playable[0] !== undefined && (work.pace === null || meetsPace(playable[0].fitting.line, work.pace));
    if (meets) return playable[0]!.fitting;
  }
  const line = last ?? plain(work, choice, choice.best[0]!);
  return { ...line, warnings: ['No thinning makes this comfortable at the tempo; play it slower, or see the findings.'] };
}

function plain(work: Work, choice: OctaveChoice, distances: readonly number[]): Fitting {
  const line = choice.phrases.flatMap((phrase, i) =>
    phrase.tones.map(
      (tone): Placed => ({ tone, sounding: tone.midi + work.request.keyShift - distances[i]!, duration: tone.duration, slur: 'none' }),
    ),
  );
  return { line: line.sort((a, b) => compare(a.tone.onset, b.tone.onset)), thinning: 'none', dropped: new Map(), distances, warnings: [] };
}

function thinnedFor(work: Work, choice: OctaveChoice, distances: readonly number[], thinning: Thinning): Fitting | null {
  const fitting = plain(work, choice, distances);
  if (thinning === 'none') return fitting;
  const less = thinning === 'slur' ? { line: fitting.line, dropped: fitting.dropped } : dropped(fitting.line, work.melody, thinning);
  const line = work.pace === null ? less.line : playableSlurs(work, less.line, work.pace);
  return line === null ? null : { ...fitting, ...less, line, thinning };
}

/** Slurs that meet the pace and that a hand plays: pairs inside an unplayable window are not taken again. */
function playableSlurs(work: Work, line: readonly Placed[], pace: Pace): readonly Placed[] | null {
  const banned = new Set<NoteId>();
  for (;;) {
    const made = slurred(line, work.melody, pace, banned);
    if (made === null) return null;
    const bad = unplayableSlurs(work, made);
    if (bad.length === 0) return made;
    for (const id of bad) banned.add(id);
  }
}

/** First notes of slurs that lie in an unplayable passage. */
function unplayableSlurs(work: Work, line: readonly Placed[]): readonly NoteId[] {
  const fingered = draft(work, line).fingered[0];
  if (fingered === undefined || fingered.plan.playable) return [];
  const at = new Map(fingered.part.notes.map((note, i) => [note.id, i]));
  const inside = new Set(fingered.plan.windows.flatMap((window) => window.notes.map((id) => at.get(id)!)));
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
  const starts = source.tree.lines.map(({ at }) => at);
  const rowOf = (bar: { readonly index: number }): number => {
    const first = melody.voice.notes.find((note) => note.bar === bar.index)?.from ?? melody.voice.bars[bar.index]!.to;
    return starts.findLastIndex((at) => at <= first);
  };
  return arrangedHeader(source, request, by, null) + composeBody({ melody, line, unit: source.score.unit, by, rowOf });
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

function reportOf(
  work: Work,
  choice: OctaveChoice,
  distances: readonly number[],
  line: readonly Placed[],
  gone: ReadonlyMap<NoteId, string>,
): readonly NoteReport[] {
  const usual = registers[work.request.version].usual;
  const kept = new Map(line.map((placed) => [placed.tone.id, placed]));
  const spans = new Map(work.melody.voice.notes.map((note) => [note.id, note]));
  return choice.phrases.flatMap((phrase, i) =>
    phrase.tones.map((tone): NoteReport => {
      const { from, to } = spans.get(tone.id)!;
      const below = distances[i]!;
      const base = { note: tone.id, from, to, bar: tone.bar + 1 };
      const placed = kept.get(tone.id);
      if (placed === undefined) return { ...base, fate: 'dropped', below: null, why: gone.get(tone.id) ?? 'left out' };
      if (placed.slur === 'second') return { ...base, fate: 'slurred', below, why: 'slurred to the note before to save a pluck' };
      if (compare(placed.duration, tone.duration) > 0)
        return { ...base, fate: 'lengthened', below, why: 'sounds on over what was left out' };
      if (below !== usual) return { ...base, fate: 'octave', below, why: `its phrase lies better ${below} semitones down than ${usual}` };
      return { ...base, fate: 'kept', below, why: `${below} semitones down, as usual for a ${work.request.version} version` };
    }),
  );
}
