// What changed between two states of a tune, bar by bar, as a player would say it.
import { sub, toText } from '../score/fraction.ts';
import type { ScoreNote, Voice } from '../score/types.ts';
import type { Span } from '../text/span.ts';
import { keyText, meterText } from './compose.ts';
import { barPlaces } from './sections.ts';
import type { Plan, PlanNote, PlanStage, ScoreStage } from './types.ts';

/** One change. Spans are in the old and the new tune; null where there is none. */
export interface Change {
  /** `A 7`, `A 2 (ending 1)`, or null for the whole tune. */
  readonly bar: string | null;
  readonly kind:
    | 'key'
    | 'meter'
    | 'tempo'
    | 'top-tempo'
    | 'bar-added'
    | 'bar-removed'
    | 'notes'
    | 'place'
    | 'articulation'
    | 'mark'
    | 'layout';
  readonly words: string;
  readonly old: Span | null;
  readonly next: Span | null;
}

/** All changes between two states of a tune, whole-tune ones first, then by bar. Fingerings are compared where both have a bass part. */
export function compareTunes(old: PlanStage, next: PlanStage): readonly Change[] {
  const count = Math.max(old.score.voices.length, next.score.voices.length);
  const voices = Array.from({ length: count }, (_, i) => compareVoices(old, next, i)).flat();
  const all = [...headChanges(old, next), ...tempoChanges(old, next), ...voices];
  if (all.length > 0 || old.text === next.text) return all;
  return [{ bar: null, kind: 'layout', words: 'only the text’s layout or words', old: null, next: null }];
}

function headChanges(old: ScoreStage, next: ScoreStage): readonly Change[] {
  const pairs = [
    ['key', keyText(old.score.key), keyText(next.score.key)],
    ['meter', meterText(old.score.meter), meterText(next.score.meter)],
  ] as const;
  return pairs.flatMap(([kind, was, is]) =>
    was === is ? [] : [{ bar: null, kind, words: `${kind} ${is}, was ${was}`, old: null, next: null }],
  );
}

function tempoChanges(old: PlanStage, next: PlanStage): readonly Change[] {
  const plan = (stage: PlanStage): Plan | undefined => stage.fingered[0]?.plan;
  const [a, b] = [plan(old), plan(next)];
  if (a === undefined || b === undefined) return [];
  const said = (tempo: Plan['tempo']): string => (tempo === null ? 'none' : `${tempo.beat}=${tempo.bpm}`);
  const named = (limit: number | null): string => (limit === null ? 'none' : String(limit));
  const whole = { bar: null, old: null, next: null } as const;
  return [
    ...(said(a.tempo) === said(b.tempo)
      ? []
      : [{ ...whole, kind: 'tempo' as const, words: `tempo ${said(b.tempo)}, was ${said(a.tempo)}` }]),
    ...(a.playable === b.playable
      ? []
      : [{ ...whole, kind: 'top-tempo' as const, words: b.playable ? 'playable now' : 'no longer playable' }]),
    ...(a.topTempo.limit === b.topTempo.limit
      ? []
      : [{ ...whole, kind: 'top-tempo' as const, words: `limit tempo ${named(b.topTempo.limit)}, was ${named(a.topTempo.limit)}` }]),
  ];
}

interface NoteState {
  readonly note: ScoreNote;
  readonly place: PlanNote | null;
}

interface BarState extends Span {
  readonly name: string;
  readonly part: string;
  readonly start: Voice['bars'][number]['onset'];
  readonly notes: readonly NoteState[];
}

function barsOf(stage: PlanStage, index: number): ReadonlyMap<string, BarState> {
  const voice = stage.score.voices[index];
  if (voice === undefined) return new Map();
  const placed = new Map(stage.fingered.find((f) => f.part.voice === voice.id)?.plan.notes.map((note) => [note.id, note]));
  const places = barPlaces(voice);
  const many = stage.score.voices.length > 1 ? `voice ${voice.id} ` : '';
  const seen = new Map<string, number>();
  return new Map(
    voice.bars.map((bar): [string, BarState] => {
      const at = places[bar.index]!;
      const plain = `${many}${at.label} ${at.number}${at.ending === '' ? '' : ` (ending ${at.ending})`}`.trim();
      const times = (seen.get(plain) ?? 0) + 1;
      seen.set(plain, times);
      const name = times === 1 ? plain : `${plain} (${times}.)`;
      const notes = voice.notes.filter((note) => note.bar === bar.index).map((note) => ({ note, place: placed.get(note.id) ?? null }));
      return [name, { name, part: at.label, from: bar.from, to: bar.to, start: bar.onset, notes }];
    }),
  );
}

/** A bar as one state has it: its place in the tune, what changed or is gone or new in it, and its notes in words. */
export interface BarSide extends Span {
  readonly changed: readonly Span[];
  readonly spelled: string;
}

/** A bar of both states, or of the one that has it. */
export interface BarPair {
  /** As in a change: `A 7`. */
  readonly name: string;
  /** The label of its part; empty if it has none. */
  readonly part: string;
  readonly old: BarSide | null;
  readonly next: BarSide | null;
  /** What changed, in words. */
  readonly words: readonly string[];
}

/** The bars of two states of a tune side by side, in the order of the new one, a removed bar after the one it followed; of further voices those that changed. */
export function alignTunes(old: PlanStage, next: PlanStage): readonly BarPair[] {
  const count = Math.max(old.score.voices.length, next.score.voices.length);
  const voices = Array.from({ length: count }, (_, i) => alignVoices(barsOf(old, i), barsOf(next, i)));
  return voices.flatMap((pairs, i) => (i === 0 ? pairs : pairs.filter(({ words }) => words.length > 0)));
}

/** The bars of two versions of a tune side by side, by part and number, of their first voices. Nothing counts as changed: versions differ by their nature. */
export function pairVersions(left: PlanStage, right: PlanStage): readonly BarPair[] {
  const plain = (side: BarSide | null): BarSide | null => side && { ...side, changed: [] };
  const pairs = alignVoices(barsOf(left, 0), barsOf(right, 0));
  return pairs.map((pair) => ({ ...pair, old: plain(pair.old), next: plain(pair.next), words: [] }));
}

function alignVoices(was: ReadonlyMap<string, BarState>, is: ReadonlyMap<string, BarState>): readonly BarPair[] {
  const names = [...is.keys()];
  const before = [...was.keys()];
  for (const [i, name] of before.entries()) if (!is.has(name)) names.splice(i === 0 ? 0 : names.indexOf(before[i - 1]!) + 1, 0, name);
  return names.map((name) => pairOf(was.get(name) ?? null, is.get(name) ?? null));
}

function pairOf(was: BarState | null, is: BarState | null): BarPair {
  const { name, part } = (is ?? was)!;
  const words = was === null ? ['bar added'] : is === null ? ['bar removed'] : compareBars(was, is).map((change) => change.words);
  return { name, part, old: was && sideOf(was, is), next: is && sideOf(is, was), words };
}

function sideOf(bar: BarState, other: BarState | null): BarSide {
  const changed = bar.notes.filter(({ note, place }) => {
    const same = other?.notes.find((one) => soundOf(one.note, other) === soundOf(note, bar));
    return same === undefined || compareNotes(same, { note, place }).length > 0;
  });
  return { ...spanOf(bar), changed: changed.map(({ note }) => spanOf(note)), spelled: spelled(bar) };
}

function compareVoices(old: PlanStage, next: PlanStage, index: number): readonly Change[] {
  const was = barsOf(old, index);
  const is = barsOf(next, index);
  const removed = [...was.values()]
    .filter((bar) => !is.has(bar.name))
    .map((bar): Change => ({ bar: bar.name, kind: 'bar-removed', words: 'bar removed', old: spanOf(bar), next: null }));
  const others = [...is.values()].flatMap((bar): readonly Change[] => {
    const before = was.get(bar.name);
    return before === undefined
      ? [{ bar: bar.name, kind: 'bar-added', words: 'bar added', old: null, next: spanOf(bar) }]
      : compareBars(before, bar);
  });
  return [...others, ...removed];
}

const spanOf = ({ from, to }: Span): Span => ({ from, to });

/** Notes are matched by where they begin; if rhythm or pitches differ the bar is told as a whole. */
function compareBars(was: BarState, is: BarState): readonly Change[] {
  const sung = (bar: BarState): string => bar.notes.map((n) => soundOf(n.note, bar)).join(' ');
  if (sung(was) !== sung(is)) {
    return [{ bar: is.name, kind: 'notes', words: `notes ${spelled(is)}, were ${spelled(was)}`, old: spanOf(was), next: spanOf(is) }];
  }
  return is.notes.flatMap((note, i) =>
    compareNotes(was.notes[i]!, note).map(
      (change): Change => ({ ...change, bar: is.name, old: spanOf(was.notes[i]!.note), next: spanOf(note.note) }),
    ),
  );
}

function soundOf(note: ScoreNote, bar: BarState): string {
  return `${note.kind}${toText(sub(note.onset, bar.start))}+${toText(note.duration)}:${note.heads.map((h) => `${h.written}${h.tied ? '~' : ''}`).join('.')}`;
}

const spelled = (bar: BarState): string => (bar.notes.length === 0 ? 'none' : bar.notes.map(({ note }) => nameOf(note)).join(' '));

const alterText: Readonly<Record<number, string>> = { [-2]: 'bb', [-1]: 'b', 0: '', 1: '#', 2: '##' };

function nameOf(note: ScoreNote): string {
  return note.heads.map((head) => head.letter + (alterText[head.alter] ?? '')).join('+');
}

type Part = Pick<Change, 'kind' | 'words'>;

function compareNotes(was: NoteState, is: NoteState): readonly Part[] {
  const changes: Part[] = [];
  if (was.place !== null && is.place !== null) changes.push(...comparePlaces(was.place, is.place, nameOf(is.note)));
  const accents = (note: ScoreNote): boolean => note.marks.some((m) => m.kind === 'decoration' && (m.name === '>' || m.name === 'accent'));
  if (accents(was.note) !== accents(is.note))
    changes.push({ kind: 'mark', words: `accent on ${nameOf(is.note)} ${accents(is.note) ? 'added' : 'removed'}` });
  const chords = (note: ScoreNote): string => note.marks.flatMap((m) => (m.kind === 'chord-symbol' ? [m.text] : [])).join(' ');
  if (chords(was.note) !== chords(is.note))
    changes.push({ kind: 'mark', words: `chord ${chords(is.note) || 'none'}, was ${chords(was.note) || 'none'}` });
  return changes;
}

const fingerWords: Readonly<Record<string, string>> = {
  '1': 'first finger',
  '2': 'second finger',
  '3': 'third finger',
  '4': 'fourth finger',
  T: 'thumb',
  '0': 'open',
};
const attackWords: Readonly<Record<string, string>> = { hammer: 'hammer-on', pull: 'pull-off', slide: 'slide' };

function comparePlaces(was: PlanNote, is: PlanNote, name: string): readonly Part[] {
  const changes: Part[] = [];
  const [a, b] = [was.places[0], is.places[0]];
  if (a !== undefined && b !== undefined) {
    const finger = fingerWords[b.finger] ?? b.finger;
    if (a.string !== b.string) changes.push({ kind: 'place', words: `${name} moves to the ${b.string} string, ${finger}` });
    else if (a.finger !== b.finger)
      changes.push({ kind: 'place', words: `${name} with ${finger}, was ${fingerWords[a.finger] ?? a.finger}` });
  }
  if (was.articulation !== is.articulation) {
    const [gone, come] = [attackWords[was.articulation], attackWords[is.articulation]];
    const words = [gone === undefined ? [] : [`${gone} removed`], come === undefined ? [] : [`${come} added`]].flat().join(', ');
    changes.push({ kind: 'articulation', words: `${words} at ${name}` });
  }
  return changes;
}
