// Versions of a tune beside their source: where they drift apart, and whether a made version is still as made from what is there.
import { compare, equal, sub } from '../score/fraction.ts';
import type { Bar, Fraction, ScoreNote, Voice } from '../score/types.ts';
import type { Span } from '../text/span.ts';
import { keyText, meterText } from './compose.ts';
import { readDeclarations } from './declarations.ts';
import { naturals } from './pitch-text.ts';
import { barPlaces, isShort, type Section, sectionsOf } from './sections.ts';
import type { ScoreStage, VersionTag } from './types.ts';

/** The version that a tune declares for its first voice. */
export function versionOf(stage: ScoreStage): VersionTag | null {
  const voice = stage.score.voices[0];
  return voice === undefined ? null : readDeclarations(voice, 'own-scope').version;
}

/** The source among a tune's versions. */
export function sourceOf(versions: readonly ScoreStage[]): ScoreStage | null {
  return versions.find((stage) => versionOf(stage)?.version.startsWith('source') === true) ?? null;
}

/** A part by a label of its own: a second part of the same label is `A~2`, one without a label `-`. */
export interface NamedSection extends Section {
  readonly name: string;
}

export function namedSections(voice: Voice): readonly NamedSection[] {
  const seen = new Map<string, number>();
  return sectionsOf(voice).map((section) => {
    const label = section.label.replace(/[^A-Za-z0-9]/g, '') || '-';
    const count = (seen.get(label) ?? 0) + 1;
    seen.set(label, count);
    return { ...section, name: count === 1 ? label : `${label}~${count}` };
  });
}

/** Digests of parts by name, as `from=` and `made=` hold them: `A:0f3c22d81b6e,B:...`. */
export type Digests = ReadonlyMap<string, string>;

export const digestsText = (digests: Digests): string => [...digests].map(([name, digest]) => `${name}:${digest}`).join(',');

export function readDigests(text: string | null): Digests {
  return new Map(
    (text ?? '').split(',').flatMap((item): [string, string][] => {
      const [name, digest] = item.split(':');
      return name !== undefined && digest !== undefined ? [[name, digest]] : [];
    }),
  );
}

/** Of each part its timed degrees: layout, octave and transposition with the key make no difference. */
export function sourceDigests(stage: ScoreStage): Digests {
  return digestsBy(stage, (voice, section) => {
    const notes = notesOf(voice, section);
    const first = notes[0];
    const key = voice.bars[section.bars[0]!]!.key.tonic;
    const tonic = key === null ? 0 : naturals[key.letter] + key.alter;
    const start = voice.bars[section.bars[0]!]!.onset;
    const degree = first === undefined ? 0 : ((((first.heads[0]?.midi ?? 0) - tonic) % 12) + 12) % 12;
    const base = first?.heads[0]?.midi ?? 0;
    return [
      degree,
      ...notes.map((n) => `${text(sub(n.onset, start))}+${text(n.duration)}=${n.heads.map((h) => h.midi - base).join('.')}`),
    ].join(' ');
  });
}

const text = (f: Fraction): string => `${f.num}/${f.den}`;

function notesOf(voice: Voice, section: Section): readonly ScoreNote[] {
  const bars = new Set(section.bars);
  return voice.notes.filter((note) => note.kind === 'note' && bars.has(note.bar));
}

/** Of each part its text without white space: whatever a player changes by hand shows. */
export function madeDigests(stage: ScoreStage): Digests {
  return digestsBy(stage, (voice, section) => {
    const { from, to } = regionOf(stage, voice, section);
    return stage.text.slice(from, to).replace(/\s+/g, '');
  });
}

function digestsBy(stage: ScoreStage, content: (voice: Voice, section: Section) => string): Digests {
  const voice = stage.score.voices[0];
  if (voice === undefined) return new Map();
  return new Map(namedSections(voice).map((section) => [section.name, hash(content(voice, section))]));
}

/** Where a part's text stands: whole lines where its borders are line borders, symbol lines under its music included. */
export function regionOf(stage: ScoreStage, voice: Voice, section: Section): Span {
  const next = voice.bars[section.bars.at(-1)! + 1];
  return { from: borderAt(stage, voice.bars[section.bars[0]!]!), to: next === undefined ? bodyEnd(stage) : borderAt(stage, next) };
}

/** The border before a bar: its part label's line if it has one, else its line if it begins one, else the bar itself. */
function borderAt(stage: ScoreStage, bar: Bar): number {
  const first = stage.score.voices[0]!.notes.find((note) => note.bar === bar.index)?.from ?? bar.to;
  const row = stage.tree.lines.findLastIndex(({ at }) => at <= first);
  const music = stage.tree.lines[row];
  if (music === undefined) return bar.from;
  const ownLine = bar.index === 0 || /^[\s|:[\]]*$/.test(stage.text.slice(music.at, bar.from));
  return ownLine ? (labelAbove(stage, row) ?? music.at) : bar.from;
}

/** Where the `P:` line stands that belongs to a line of music, comments and other fields between them included. */
function labelAbove({ tree }: ScoreStage, row: number): number | null {
  const above = tree.lines.slice(tree.bodyStart, row);
  const since = above.slice(above.findLastIndex(({ line }) => sung.includes(line.kind)) + 1);
  return since.findLast(({ line }) => line.kind === 'field' && line.field.letter === 'P')?.at ?? null;
}

/** Lines of music and what hangs under them. */
const sung: readonly string[] = ['music', 'symbols', 'lyrics'];

function bodyEnd(stage: ScoreStage): number {
  const last = stage.tree.lines.findLast(({ line }) => sung.includes(line.kind));
  return last === undefined ? stage.text.length : last.at + last.line.text.length;
}

/** Two 32-bit FNV-1a sums (Fowler, Noll, Vo; the published constants), from two starts: 16 hexadecimal digits. */
function hash(content: string): string {
  return [0x811c9dc5, 0x9747b28c].map((start) => fnv(content, start).toString(16).padStart(8, '0')).join('');
}

function fnv(content: string, start: number): number {
  let sum = start;
  for (let i = 0; i < content.length; i++) sum = Math.imul(sum ^ content.charCodeAt(i), 0x01000193) >>> 0;
  return sum;
}

/** How a part of a made version stands to its source: `clean` as made; `stale` the source has changed; `edited` by a player; `conflict` both. */
export type PartState = 'clean' | 'stale' | 'edited' | 'conflict';

/** The state of each part of a made version that the source has or had; null for a version that was not made. */
export function statesOf(source: ScoreStage, version: ScoreStage): ReadonlyMap<string, PartState> | null {
  const tag = versionOf(version);
  if (tag === null || tag.from === null || tag.made === null) return null;
  const from = readDigests(tag.from);
  const made = readDigests(tag.made);
  const sourceNow = sourceDigests(source);
  const versionNow = madeDigests(version);
  const names = [...sourceNow.keys()].filter((name) => versionNow.has(name) || made.has(name));
  return new Map(names.map((name) => [name, stateOf(from.get(name) === sourceNow.get(name), made.get(name) === versionNow.get(name))]));
}

function stateOf(sameSource: boolean, asMade: boolean): PartState {
  if (sameSource) return asMade ? 'clean' : 'edited';
  return asMade ? 'stale' : 'conflict';
}

/** A difference in the frame of two versions; the span is in the version's text. */
export interface Drift extends Span {
  readonly message: string;
}

/** Where a version's frame differs from its source's: parts, bars a part, meter, key. Notes and pickups may differ. */
export function driftOf(source: ScoreStage, version: ScoreStage): readonly Drift[] {
  const tag = versionOf(version);
  const theirs = source.score.voices[0];
  const ours = version.score.voices[0];
  if (tag === null || theirs === undefined || ours === undefined) return [];
  const sections = namedSections(ours).filter((section) => !tag.extra.includes(section.label));
  const wanted = namedSections(theirs);
  return [
    ...headDrift(source, version, tag),
    ...wanted.flatMap((part) => {
      const own = sections.find((section) => section.name === part.name);
      if (own === undefined)
        return [{ ...headOf(version), message: `Part ${part.name} of the source is missing here. ${remedyFor(part.name, tag)}` }];
      return barsDrift(theirs, part, ours, own);
    }),
    ...sections.flatMap((section) => {
      if (wanted.some((part) => part.name === section.name)) return [];
      const { from, to } = startOf(ours, section);
      return [
        { from, to, message: `The source has no part ${section.name}. List it as extra=${section.label} if only this version has it.` },
      ];
    }),
  ];
}

/** An update adds what is new in the source to a made version; what a player took out it leaves out. */
const remedyFor = (name: string, { from }: VersionTag): string =>
  from !== null && !readDigests(from).has(name)
    ? 'Update the versions (arrange --update) and it is added.'
    : 'Add it, or take it out of the source.';

function headOf(stage: ScoreStage): Span {
  const line = stage.tree.lines[0];
  return { from: 0, to: line === undefined ? 0 : line.line.text.trimEnd().length };
}

function headDrift(source: ScoreStage, version: ScoreStage, tag: VersionTag): readonly Drift[] {
  const a = source.score;
  const b = version.score;
  const meters = [meterText(a.meter), meterText(b.meter)] as const;
  const drifts: Drift[] = [];
  if (meters[0] !== meters[1])
    drifts.push({ ...headOf(version), message: `The meter is ${meters[1]} here and ${meters[0]} in the source.` });
  if (!sameKey(a.key, b.key, tag.keyShift)) {
    const shift = tag.keyShift === 0 ? 'say so with key-shift= if it is meant' : `key-shift=${tag.keyShift} does not account for it`;
    drifts.push({ ...headOf(version), message: `The key is ${keyText(b.key)} here and ${keyText(a.key)} in the source; ${shift}.` });
  }
  return drifts;
}

function sameKey(a: ScoreStage['score']['key'], b: ScoreStage['score']['key'], shift: number): boolean {
  if (a.tonic === null || b.tonic === null) return a.tonic === b.tonic || (a.tonic ?? b.tonic)!.letter === 'C';
  const pitch = (key: typeof a): number => naturals[key.tonic!.letter] + key.tonic!.alter;
  return a.mode === b.mode && (pitch(b) - pitch(a) - shift) % 12 === 0;
}

function barsDrift(theirs: Voice, part: Section, ours: Voice, own: Section): readonly Drift[] {
  const a = countBars(theirs, part);
  const b = countBars(ours, own);
  if (a === b) return [];
  const { from } = startOf(ours, own);
  const { to } = ours.bars[own.bars.at(-1)!]!;
  return [
    {
      from,
      to,
      message: `Part ${part.label} has ${bars(b)} here and ${bars(a)} in the source. Bring them together, or list the part as extra=.`,
    },
  ];
}

/** The first bar of a part, from its first note: a label may stand before it. */
export function startOf(voice: Voice, section: Section): Span {
  const bar = voice.bars[section.bars[0]!]!;
  const first = voice.notes.find((note) => note.bar === bar.index) ?? bar;
  return { from: first.from, to: bar.to };
}

const bars = (count: number): string => (count === 1 ? '1 bar' : `${count} bars`);

/** Bars of a part; a pickup, and a short last bar that a pickup completes, count as one with their other half. */
function countBars(voice: Voice, section: Section): number {
  const places = barPlaces(voice);
  const inside = section.bars.map((index) => voice.bars[index]!);
  const first = inside[0];
  const pickup = inside.length > 1 && first !== undefined && isShort(first) && places[first.index]!.number === 0 ? 1 : 0;
  const halves = inside.slice(1 + pickup).filter((bar, i) => {
    const before = inside[i + pickup]!;
    return isShort(bar) && isShort(before) && bar.nominal !== null && bothFill(before, bar);
  }).length;
  return inside.length - pickup - halves;
}

function bothFill(a: Bar, b: Bar): boolean {
  const rest = sub(b.nominal!, b.duration);
  return equal(rest, a.duration) || compare(rest, a.duration) === 0;
}
