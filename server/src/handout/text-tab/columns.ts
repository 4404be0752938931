// A bar of a bass part as columns of text: one column an onset, with what stands in each row there.
import type { Plan, PlanNote } from '../../arrangement/types.ts';
import { compare } from '../../score/fraction.ts';
import type { Bar, Fraction, Lyric, NoteId, ScoreNote, Voice } from '../../score/types.ts';
import type { Density } from '../types.ts';
import { valueText } from '../values.ts';

/** What stands over, on and under the strings at one onset. Empty strings where nothing does. */
export interface Column {
  readonly chord: string;
  readonly hand: string;
  readonly finger: string;
  /** One a string, from the top. */
  readonly stops: readonly string[];
  readonly rhythm: string;
  /** One a verse. */
  readonly lyrics: readonly string[];
  readonly duration: Fraction;
}

/** What is looked up for each note of a voice. */
export interface TabContext {
  readonly voice: Voice;
  readonly strings: readonly string[];
  readonly planned: ReadonlyMap<NoteId, PlanNote>;
  /** The planned note before each, for the direction of slides. */
  readonly before: ReadonlyMap<NoteId, PlanNote>;
  /** Notes of passages that no hand plays. */
  readonly unplayable: ReadonlySet<NoteId>;
  readonly lyrics: ReadonlyMap<NoteId, readonly Lyric[]>;
  readonly verses: number;
  readonly density: Density;
}

export function tabContext(voice: Voice, plan: Plan, density: Density): TabContext {
  const lyrics = new Map<NoteId, Lyric[]>();
  for (const lyric of voice.lyrics) lyrics.set(lyric.note, [...(lyrics.get(lyric.note) ?? []), lyric]);
  return {
    voice,
    strings: plan.strings,
    planned: new Map(plan.notes.map((note) => [note.id, note])),
    before: new Map(plan.notes.slice(1).map((note, i) => [note.id, plan.notes[i]!])),
    unplayable: new Set(plan.windows.flatMap((window) => window.notes)),
    lyrics,
    verses: Math.max(0, ...voice.lyrics.map((lyric) => lyric.verse)),
    density,
  };
}

/** The columns of one bar. Notes that begin together share one; a grace has its own before its note. */
export function columnsOf(bar: Bar, context: TabContext): readonly Column[] {
  const notes = context.voice.notes.filter((note) => note.bar === bar.index);
  const rests = context.voice.rests.filter((rest) => rest.bar === bar.index && rest.layer === 0 && rest.seen);
  const sounding = groupByOnset(notes).map((group) => ({ onset: group[0]!.onset, column: noteColumn(group, context) }));
  const silent = rests
    .filter((rest) => !notes.some((note) => note.kind === 'note' && compare(note.onset, rest.onset) === 0))
    .map((rest) => ({ onset: rest.onset, column: restColumn(rest.duration, context) }));
  return [...sounding, ...silent].sort((a, b) => compare(a.onset, b.onset)).map(({ column }) => column);
}

function groupByOnset(notes: readonly ScoreNote[]): readonly (readonly ScoreNote[])[] {
  const groups: ScoreNote[][] = [];
  for (const note of notes) {
    const group = groups.find((g) => note.kind === 'note' && g[0]!.kind === 'note' && compare(g[0]!.onset, note.onset) === 0);
    if (group) group.push(note);
    else groups.push([note]);
  }
  return groups;
}

function noteColumn(group: readonly ScoreNote[], context: TabContext): Column {
  const first = group[0]!;
  const planned = group.flatMap((note) => context.planned.get(note.id) ?? []);
  const verses = context.lyrics.get(first.id) ?? [];
  const hand = planned.find((note) => note.shift && note.hand !== null)?.hand;
  return {
    chord: group.flatMap((note) => note.marks).find((mark) => mark.kind === 'chord-symbol')?.text ?? '',
    hand: hand ? `${hand.frame === 'thumb' ? 'T' : ''}${hand.stop}` : '',
    finger: planned.flatMap((note) => fingersOf(note, context.density)).join(','),
    stops: context.strings.map((string) => stopOn(string, group, context)),
    rhythm: first.kind === 'grace' ? 'g' : valueText(first.duration),
    lyrics: Array.from({ length: context.verses }, (_, v) => lyricText(verses.find((lyric) => lyric.verse === v + 1))),
    duration: first.duration,
  };
}

const lyricText = (lyric: Lyric | undefined): string => (lyric ? lyric.text + (lyric.hyphen ? '-' : '') : '');

function restColumn(duration: Fraction, context: TabContext): Column {
  const nothing = { chord: '', hand: '', finger: '', stops: context.strings.map(() => '') };
  return { ...nothing, rhythm: `r${valueText(duration)}`, lyrics: Array.from({ length: context.verses }, () => ''), duration };
}

function fingersOf(note: PlanNote, density: Density): readonly string[] {
  const shown = density === 'all' || note.pinned.includes('finger') || (density === 'changes' && note.shift);
  return shown ? note.places.map((place) => place.finger) : [];
}

/** What stands on a string: a stop with the sign of how it is sounded, `?` on the top string for a note no hand plays here. */
function stopOn(string: string, group: readonly ScoreNote[], context: TabContext): string {
  for (const note of group) {
    if (context.unplayable.has(note.id) && string === context.strings[0]) return '?';
    const planned = context.planned.get(note.id);
    const place = planned?.places.find((p) => p.string === string);
    if (planned && place) return attackSign(planned, context) + (place.harmonic ? `<${place.stop}>` : String(place.stop));
  }
  return '';
}

function attackSign(note: PlanNote, context: TabContext): string {
  switch (note.attack) {
    case 'pluck':
      return '';
    case 'hammer':
      return 'h';
    case 'pull':
      return 'p';
    case 'scoop':
      return '/';
    case 'glide':
      return (context.before.get(note.id)?.sounding[0] ?? 0) > (note.sounding[0] ?? 0) ? '\\' : '/';
    case 'left-hand':
      return '+';
    case 'dead':
      return 'x';
  }
}
