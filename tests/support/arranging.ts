// What must hold of every arranged version, for the unit suite on a few tunes and for fuzzing on all.
import { readBook } from '../../server/src/abc/index.ts';
import {
  type Arranged,
  type ArrangeTools,
  accentEdits,
  arrange,
  backing,
  compareTunes,
  defaultConfig,
  driftOf,
  hammerSuggestions,
  inkEdits,
  madeDigests,
  namedSections,
  octaveEdits,
  partStage,
  planStage,
  regionOf,
  scoreStage,
  settlePins,
  settleSuggestions,
  statesOf,
  suggestionEdits,
  transposeEdits,
  updateVersion,
} from '../../server/src/arrangement/index.ts';
import type { ScoreStage } from '../../server/src/arrangement/types.ts';
import { findingsOf } from '../../server/src/checks/index.ts';
import { makeTables } from '../../server/src/fingering/index.ts';
import { applyEdits } from '../../server/src/text/span.ts';
import type { Random } from './random.ts';

export const tools: ArrangeTools = { read: readBook, tables: makeTables(32 * 1024 * 1024), config: defaultConfig };

type Version = 'low' | 'high';
type Thin = 'none' | 'auto';

const make = (source: ScoreStage, version: Version, thin: Thin): Arranged =>
  arrange(source, { version, number: 2, keyShift: 0, tempo: null, thin, pins: 'changes' }, tools);

/** The tune's text with its file header, so that it stands alone. */
const alone = (stage: ScoreStage): string => stage.book.header.lines.map(({ line }) => line.text).join('') + stage.text;

/** Errors that a text has of its own, whoever plays it: codes of bars, repeats and reading. */
const frameErrors = (stage: ScoreStage): ReadonlySet<string> => new Set(findingsOf(stage, 'score').map((one) => one.code));

/** What is wrong with the version made of a tune; `impossible` alone if it cannot be made and says so. */
export function arrangedFaults(source: ScoreStage, version: Version): readonly string[] {
  const made = make(source, version, 'auto');
  if (made.kind === 'impossible') return [`impossible: ${made.message}`];
  const again = planStage(readBook(made.text), 0, defaultConfig, tools.tables);
  const own = frameErrors(source);
  const errors = findingsOf(again, 'plan').filter((one) => one.severity === 'error' && !own.has(one.code));
  const faults = errors.map((one) => `${one.code}: ${one.message}`);
  if (made.warnings.length > 0) faults.push(...made.warnings);
  if (again.fingered.some(({ plan }) => !plan.playable)) faults.push('unplayable');
  if (JSON.stringify(make(source, version, 'auto')) !== JSON.stringify(made)) faults.push('other bytes the second time');
  return [...faults, ...intervalFaults(source, version)];
}

/** Without thinning, each note lies a whole number of octaves under the source's, the same inside each bar, and the rhythm is kept. */
function intervalFaults(source: ScoreStage, version: Version): readonly string[] {
  const made = make(source, version, 'none');
  if (made.kind === 'impossible') return [];
  const sounding = made.plan?.notes.map((note) => note.sounding[0]!) ?? [];
  const tops = new Map(source.score.voices[0]!.notes.map((note) => [note.id, Math.max(...note.heads.map((head) => head.midi))]));
  if (sounding.length !== made.report.length) return [`${sounding.length} notes made of ${made.report.length}`];
  return made.report.flatMap((note, i) => {
    const way = tops.get(note.note)! - sounding[i]!;
    const before = made.report[i - 1];
    const broken = before?.bar === note.bar && before.below !== note.below;
    return way !== note.below || broken ? [`bar ${note.bar}: ${way} below, said ${note.below}`] : [];
  });
}

/** What is wrong with the bass line made from a tune's chords, written or suggested. */
export function backingFaults(source: ScoreStage): readonly string[] {
  const request = { number: 2, keyShift: 0, tempo: null, pins: 'changes' } as const;
  const made = backing(source, request, tools);
  if (made.kind === 'impossible') return [`impossible: ${made.message}`];
  const stage = planStage(readBook(made.text), 0, defaultConfig, tools.tables);
  const own = frameErrors(source);
  const errors = findingsOf(stage, 'plan').filter((one) => one.severity === 'error' && !own.has(one.code));
  const again = backing(source, request, tools);
  return [
    ...errors.map((one) => `${one.code}: ${one.message}`),
    ...(stage.fingered.every(({ plan }) => plan.playable) ? [] : ['unplayable']),
    ...(again.kind === 'backing' && again.text === made.text ? [] : ['other bytes the second time']),
  ];
}

/** Transposes a tune of any kind there and back, and says where a note did not go the same way or come home. */
export function transposeFaults(stage: ScoreStage, by: number): readonly string[] {
  const header = stage.book.header.lines.map(({ line }) => line.text).join('');
  const moved = (from: ScoreStage, way: number): ScoreStage =>
    scoreStage(readBook(header + applyEdits(from.text, transposeEdits(partStage(from.book, from.index, defaultConfig), way).edits)), 0);
  const midi = (s: ScoreStage): string => s.score.voices.flatMap((v) => v.notes.flatMap((n) => n.heads.map((h) => h.midi))).join(' ');
  const up = midi(stage).replace(/\d+/g, (pitch) => String(Number(pitch) + by));
  const there = moved(stage, by);
  if (midi(there) !== up) return [`by ${by}: ${midi(there)}, not ${up}`];
  return midi(moved(there, -by)) === midi(stage) ? [] : [`by ${by} and back: other notes`];
}

/** Changes the source and the made version at random, notes and whole parts, updates, and says what a player's change lost. */
export function updateFaults(source: ScoreStage, version: Version, random: Random): readonly string[] {
  const made = make(source, version, 'none');
  if (made.kind === 'impossible') return [];
  const changed = reshaped(
    scoreStage(readBook(edited(alone(source), scoreStage(readBook(alone(source)), 0), random, random.below(3))), 0),
    random,
  );
  const before = scoreStage(readBook(made.text), 0);
  const mine = reshaped(scoreStage(readBook(edited(made.text, before, random, random.below(3))), 0), random);
  const updated = updateVersion(changed, mine, { tempo: null, thin: 'none', pins: 'changes' }, tools);
  if (updated.kind !== 'updated') return updated.kind === 'impossible' ? [] : [updated.message];
  const again = updateVersion(changed, scoreStage(readBook(updated.text), 0), { tempo: null, thin: 'none', pins: 'changes' }, tools);
  const left = updated.parts.some((part) => part.state === 'left');
  const moving = left || (again.kind === 'updated' && again.text === updated.text) ? [] : ['a second update changes something'];
  return [...lost(before, mine, updated.text), ...leftStale(changed, updated.text), ...moving];
}

/** Sometimes with a part taken out, or a copy of one, put in before another or at the end. */
function reshaped(stage: ScoreStage, random: Random): ScoreStage {
  const voice = stage.score.voices[0];
  const sections = voice === undefined ? [] : namedSections(voice);
  const way = random.below(4);
  if (sections.length < 2 || way > 1) return stage;
  const region = regionOf(stage, voice!, random.pick(sections));
  const text = stage.text.slice(region.from, region.to);
  const place = regionOf(stage, voice!, random.pick(sections))[random.pick(['from', 'to'] as const)];
  const opens = place === 0 || /\n$/.test(stage.text.slice(0, place)) ? '' : '\n';
  const copy = `${opens}${text.replace(/^P:.*/, 'P:N').replace(/\n$/, '')}\n`;
  const change = way === 0 ? { span: region, insert: '' } : { span: { from: place, to: place }, insert: copy };
  const header = stage.book.header.lines.map(({ line }) => line.text).join('');
  return scoreStage(readBook(header + applyEdits(stage.text, [change])), 0);
}

function lost(before: ScoreStage, mine: ScoreStage, text: string): readonly string[] {
  const was = madeDigests(before);
  const is = madeDigests(mine);
  const voice = mine.score.voices[0];
  return (voice === undefined ? [] : namedSections(voice)).flatMap((section) => {
    const { from, to } = regionOf(mine, voice!, section);
    const own = mine.text.slice(from, to);
    return was.get(section.name) !== is.get(section.name) && !text.includes(own)
      ? [`part ${section.name} lost what a player wrote: ${own}`]
      : [];
  });
}

function leftStale(source: ScoreStage, text: string): readonly string[] {
  const states = statesOf(source, scoreStage(readBook(text), 0)) ?? new Map();
  return [...states].flatMap(([name, state]) => (state === 'stale' ? [`part ${name} is stale after the update`] : []));
}

/** `count` changes a player might make: another note, a pin, a word over a note. `text` may have a header before the tune's. */
function edited(text: string, stage: ScoreStage, random: Random, count: number): string {
  const notes = stage.score.voices[0]?.notes.filter((note) => note.kind === 'note') ?? [];
  if (notes.length === 0) return text;
  const places = new Set(Array.from({ length: count }, () => random.pick(notes).heads[0]!.from + stage.book.tunes[stage.index]!.at));
  const edits = [...places]
    .sort((a, b) => a - b)
    .map((from) => {
      const letter = /[A-Ga-g]/.exec(text.slice(from))!;
      const at = from + letter.index;
      return random.below(2) === 0
        ? { span: { from: at, to: at + 1 }, insert: random.pick('CDEFGAB') }
        : { span: { from, to: from }, insert: random.pick(['!1!', '"^listen"', '!>!']) };
    });
  return applyEdits(text, edits);
}

/** Does with a text all that can be done with a part; for texts that may be anything. Throws if anything throws. */
export function useAll(text: string): void {
  const book = readBook(text);
  book.tunes.forEach((_, i) => {
    const stage = planStage(book, i, tools.config, tools.tables);
    JSON.stringify(stage.fingered.map((f) => f.plan));
    for (const density of ['all', 'changes'] as const)
      for (const form of ['inline', 'lines'] as const) applyEdits(stage.text, inkEdits(stage, { density, form }));
    for (const fingered of stage.fingered) {
      applyEdits(stage.text, accentEdits(stage, fingered.part));
      hammerSuggestions(stage, fingered);
    }
    applyEdits(stage.text, transposeEdits(stage, 3).edits);
    applyEdits(stage.text, settlePins(stage).edits);
    applyEdits(stage.text, octaveEdits(stage, { from: 0, to: stage.text.length }, 1));
    const made = arrange(stage, { version: 'low', number: 9, keyShift: 2, tempo: null, thin: 'auto', pins: 'changes' }, tools);
    if (made.kind === 'arranged' && readBook(made.text).tunes.length === 0) throw new Error('the arranged text holds no tune');
    const line = backing(stage, { number: 9, keyShift: -3, tempo: null, pins: 'changes' }, tools);
    if (line.kind === 'backing' && readBook(line.text).tunes.length === 0) throw new Error('the bass line holds no tune');
    const suggested = scoreStage(readBook(applyEdits(stage.text, suggestionEdits(stage))), 0);
    for (const way of ['keep', 'remove'] as const) applyEdits(suggested.text, settleSuggestions(suggested, way));
    for (const other of stage.siblings) [driftOf(other, stage), statesOf(other, stage)];
    compareTunes(stage, planStage(book, 0, tools.config, tools.tables));
    scoreStage(book, i);
  });
}
