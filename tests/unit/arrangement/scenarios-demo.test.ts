// Musical scenarios for the demo's tunes: octaves of parts, bars and chords kept, notes that stay, hammer-ons, accents, updates and drift. Expected values by musical reasoning, given in the titles; rules of the trade are common practice.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import {
  accentEdits,
  driftOf,
  namedSections,
  partStage,
  scoreStage,
  sourceOf,
  statesOf,
  updateVersion,
} from '../../../server/src/arrangement/index.ts';
import type { ScoreStage } from '../../../server/src/arrangement/types.ts';
import { compare, div, fraction, sub, toNumber } from '../../../server/src/score/fraction.ts';
import type { Voice } from '../../../server/src/score/types.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { arranged, bodyOf, planned, stageOf, tools, tune } from './support.ts';

const tuneFiles = ['ferrymans-dare', 'lamplighters-ladder', 'nettle-fair', 'orrins-lantern', 'towpath-breakdown'] as const;
type TuneFile = (typeof tuneFiles)[number];

const readDemo = (name: TuneFile) => readBook(readFileSync(new URL(`../../../media/demo/${name}.abc`, import.meta.url), 'utf8'));
const versionsOf = (name: TuneFile): readonly ScoreStage[] => readDemo(name).tunes.map((_, i) => scoreStage(readDemo(name), i));
const sourceText = (name: TuneFile): string => sourceOf(versionsOf(name))!.text;
const made = new Map<string, string>();
/** The version as made, pinned where something changes; made once for all scenarios. */
function madeOf(name: TuneFile, version: 'low' | 'high'): string {
  const key = `${name} ${version}`;
  const text = made.get(key) ?? arranged(sourceText(name), { version, thin: 'none', pins: 'changes' }).text;
  made.set(key, text);
  return text;
}
const firstVoice = (text: string): Voice => stageOf(text).score.voices[0]!;

/** Semitones that the bass sounds below the source, an octave under its written notes, by part; a part in two octaves shows both. */
function octaves(name: TuneFile, version: 'low' | 'high'): Record<string, readonly number[]> {
  const source = firstVoice(sourceText(name));
  const written = firstVoice(madeOf(name, version));
  const below = source.notes.map((note, i) => ({ bar: note.bar, by: note.heads[0]!.midi - written.notes[i]!.heads[0]!.midi + 12 }));
  return Object.fromEntries(
    namedSections(source).map((section) => {
      const inside = below.filter((note) => section.bars.includes(note.bar));
      return [section.name, [...new Set(inside.map((note) => note.by))]];
    }),
  );
}

describe('a part has one octave, the usual one where its range allows', () => {
  it.each([
    ['ferrymans-dare', 'low', 24, 36, 'A lies C#4 to D5, so two octaves below is C#2 to D3; B climbs to A5 and has room below to E1'],
    ['ferrymans-dare', 'high', 12, 24, 'B at one octave below would want stop 26 of the G string'],
    ['lamplighters-ladder', 'low', 24, 36, 'B lies A4 to B5: two below would leave the neck register, three is A1 to B2'],
    ['lamplighters-ladder', 'high', 12, 24, 'B reaches B5, stop 28 at one octave below'],
    ['nettle-fair', 'low', 24, 36, 'B reaches A5 and falls to E4, the open E three octaves below'],
    ['nettle-fair', 'high', 12, 24, 'B reaches A5, stop 26 at one octave below'],
    ['orrins-lantern', 'low', 24, 24, 'three below would fall a sixth into B, where the melody rises a third; joins come before range'],
    ['orrins-lantern', 'high', 12, 12, 'B reaches G5, stop 24 of the G string, the last there is'],
    ['towpath-breakdown', 'low', 24, 36, 'B lies F#4 to B5: three below is F#1 to B2'],
    ['towpath-breakdown', 'high', 12, 24, 'B reaches B5, stop 28 at one octave below'],
  ] as const)('%s, %s: A %i, B %i below: %s', (name, version, a, b, _why) => expect(octaves(name, version)).toEqual({ A: [a], B: [b] }));
});

const headCount = (text: string): number => (text.match(/"[A-G][^"^_]*"/g) ?? []).length;

describe('bars, chords, repeats and part labels are those of the melody', () => {
  it.each(tuneFiles.flatMap((name) => (['low', 'high'] as const).map((version) => [name, version] as const)))('%s, %s', (name, version) => {
    const source = sourceText(name);
    const text = madeOf(name, version);
    const frame = (of: string) =>
      namedSections(firstVoice(of)).map(({ name: part, bars }) => [part, bars.map((i) => toNumber(firstVoice(of).bars[i]!.duration))]);
    expect(frame(text)).toEqual(frame(source));
    expect(headCount(bodyOf(text))).toBe(headCount(bodyOf(source)));
    expect(text.split('|:').length).toBe(source.split('|:').length);
    expect(text.split(':|').length).toBe(source.split(':|').length);
  });
});

/** Onsets of a voice's plucked and slurred notes, ties counted once. */
const onsetsOf = (text: string): readonly string[] =>
  firstVoice(text)
    .notes.filter((note) => note.kind === 'note')
    .map((note) => `${note.onset.num}/${note.onset.den}`);

/** Onsets that may never go, counted straight from the melody: on the beats, in a pickup, or last of a part. */
function kept(text: string, beat: number): readonly string[] {
  const voice = firstVoice(text);
  const lasts = new Set(namedSections(voice).map(({ bars }) => voice.notes.findLast((n) => n.kind === 'note' && bars.includes(n.bar))!.id));
  return voice.notes
    .filter((note) => note.kind === 'note')
    .filter((note) => {
      const bar = voice.bars[note.bar]!;
      const first = namedSections(voice).some(({ bars }) => bars[0] === note.bar);
      const pickup = first && bar.nominal !== null && compare(bar.duration, bar.nominal) < 0;
      const onBeat = div(sub(note.onset, bar.onset), fraction(beat, 8)).den === 1;
      return pickup || onBeat || lasts.has(note.id);
    })
    .map((note) => `${note.onset.num}/${note.onset.den}`);
}

describe('at its barest a version keeps every beat, pickup and last note', () => {
  it.each([
    ['ferrymans-dare', 2],
    ['nettle-fair', 3],
    ['orrins-lantern', 2],
  ] as const)('%s: the beat is %i eighths', (name, beat) => {
    const source = sourceText(name);
    const { text } = arranged(source, { version: 'low', thin: 'quarter' });
    expect(onsetsOf(text)).toEqual(expect.arrayContaining([...kept(source, beat)]));
    expect(onsetsOf(source)).toEqual(expect.arrayContaining([...onsetsOf(text)]));
  });
});

describe('hammer-ons begin on the beat, stay on one string, span a tone at most and never end on a backbeat', () => {
  it('The Ferryman’s Dare, half notes at 126: past seven plucks a second', () => {
    const { text } = arranged(sourceText('ferrymans-dare'), { version: 'low', thin: 'slur', tempo: { beat: fraction(1, 2), bpm: 126 } });
    const stage = planned(text);
    const [{ part, plan }] = stage.fingered as [(typeof stage.fingered)[number]];
    const slurred = part.notes.flatMap((note, i) => (note.articulation === 'hammer' || note.articulation === 'pull' ? [i] : []));
    for (const i of slurred) {
      const [first, second] = [plan.notes[i - 1]!, plan.notes[i]!];
      const bar = stage.score.voices[0]!.bars[part.notes[i]!.note.bar]!;
      const into = (at: typeof bar.onset) => toNumber(sub(at, bar.onset)) * 4;
      expect(part.notes[i - 1]!.articulation).toBe('pluck');
      expect(first.places[0]!.string).toBe(second.places[0]!.string);
      expect([1, 2]).toContain(Math.abs(first.places[0]!.stop - second.places[0]!.stop));
      if (bar.nominal !== null && compare(bar.duration, bar.nominal) === 0) {
        expect(into(part.notes[i - 1]!.onset) % 1).toBe(0);
        expect([1, 3]).not.toContain(into(part.notes[i]!.onset));
      }
    }
    expect(slurred.length).toBeGreaterThan(0);
  });
  it.each([
    ['lamplighters-ladder', 'G2BG FAEC|D goes by thirds and more'],
    ['towpath-breakdown', 'BdBG AcAF|G goes by thirds and more'],
  ] as const)('%s, half notes at 126: %s, so no hammer-on helps and only the quarters stay', (name, _why) => {
    const { thinning, warnings } = arranged(sourceText(name), { version: 'low', tempo: { beat: fraction(1, 2), bpm: 126 } });
    expect(thinning).toBe('quarter');
    expect(warnings).toEqual([]);
  });
  it('Orrin’s Lantern needs none: a waltz in quarters never reaches seven plucks a second', () =>
    expect(bodyOf(arranged(sourceText('orrins-lantern'), { version: 'low' }).text)).not.toContain('('));
});

function accented(fields: string, body: string): string {
  const text = tune(`L:1/8 ; ${fields} ; K:G clef=bass`, body);
  const stage = partStage(readBook(text), 0, tools.config);
  const part = stage.parts[0]!;
  if (part.kind !== 'bass') throw new Error('this voice is no bass part');
  return bodyOf(applyEdits(text, accentEdits(stage, part)));
}

describe('the backbeat by meter', () => {
  it.each([
    ['2/2', 'G,2(B,G,) D2B,G,|', 'G,2(!>!B,G,) D2!>!B,G,|', 'Towpath, counted in four: 2 and 4'],
    ['4/4', 'A,2CB, A,2E,C,|', 'A,2!>!CB, A,2!>!E,C,|', 'the Ferryman’s first bar'],
    ['C|', 'D,2(F,D,) A,2F,A,|', 'D,2(!>!F,D,) A,2!>!F,A,|', 'the Ladder’s first bar'],
    ['2/4', 'G,B,DB,|', 'G,!>!B,D!>!B,|', 'the half bar in four eighths: the chop is off the beat'],
    ['6/8', 'A,2B, CB,A,|', 'A,2B, !>!CB,A,|', 'the second of two'],
    ['3/4', 'G,4 B,2|D4 B,2|', 'G,4 B,2|D4 B,2|', 'a waltz has no backbeat'],
    ['4/4', 'G,2|G,2B,2 D2B,2|', '!>!G,2|G,2!>!B,2 D2!>!B,2|', 'a pickup of one beat is beat 4'],
    ['4/4', 'G,2(A,B,) G,(A,B,2)|', 'G,2(!>!A,B,) G,(A,B,2)|', 'a hammered note is no pluck'],
  ])('%s: %s', (meter, body, wanted) => {
    expect(accented(`M:${meter}`, body)).toBe(wanted);
    expect(accented(`M:${meter}`, wanted)).toBe(wanted);
  });
});

/** The last written note of part A of each tune, and what a fiddler might play instead. */
const revisions: readonly (readonly [TuneFile, string, string])[] = [
  ['ferrymans-dare', '"A"A2AG A2:|\nP:B', '"A"A2cG A2:|\nP:B'],
  ['lamplighters-ladder', '"D"D2DE D4:|', '"D"D2FE D4:|'],
  ['nettle-fair', '"Am"EAB cBA', '"Am"EAB dBA'],
  ['orrins-lantern', '"G"B3 A G2', '"G"B2 A2 G2'],
  ['towpath-breakdown', '"D"A2FA D2EF', '"D"A2FA D2DF'],
];

/** Lengths and letters of a part's notes, by the reader of scores: what a version shares with its melody whatever the octave. */
function degrees(text: string, part: string): readonly string[] {
  const voice = firstVoice(text);
  const { bars } = namedSections(voice).find((section) => section.name === part)!;
  return voice.notes
    .filter((note) => note.kind === 'note' && bars.includes(note.bar))
    .map((note) => `${note.heads[0]!.letter}${note.heads[0]!.alter}:${toNumber(note.duration)}`);
}

describe('a revised melody', () => {
  const how = { tempo: null, thin: 'none', pins: 'changes' } as const;
  const states = (source: string, version: string) => Object.fromEntries(statesOf(stageOf(source), stageOf(version)) ?? []);
  it.each(revisions)('%s: the changed part alone is stale, and an update brings its notes in', (name, from, to) => {
    const source = sourceText(name);
    const low = madeOf(name, 'low');
    const revised = source.replace(from, to);
    expect(revised).not.toBe(source);
    expect(states(revised, low)).toEqual({ A: 'stale', B: 'clean' });
    const updated = updateVersion(stageOf(revised), stageOf(low), how, tools);
    if (updated.kind !== 'updated') throw new Error(updated.message);
    expect(states(revised, updated.text)).toEqual({ A: 'clean', B: 'clean' });
    expect(updated.text.split('P:B')[1]).toBe(low.split('P:B')[1]);
    expect(degrees(updated.text, 'A')).toEqual(degrees(revised, 'A'));
  });
  it.each(revisions)('%s: a part that the player changed too stays byte for byte', (name, from, to) => {
    const source = sourceText(name);
    const mine = madeOf(name, 'low').replace('|:', '|:"^lay back"');
    const revised = source.replace(from, to);
    expect(states(revised, mine)).toEqual({ A: 'conflict', B: 'clean' });
    const updated = updateVersion(stageOf(revised), stageOf(mine), how, tools);
    expect(updated).toMatchObject({ kind: 'updated', text: mine });
    if (updated.kind === 'updated') expect(updated.parts[0]!.message).toContain('stays as it is');
  });
});

describe('drift of the written versions', () => {
  const drifts = (source: ScoreStage, version: ScoreStage) => driftOf(source, version).map((drift) => drift.message);
  it.each(tuneFiles)('%s: none as they stand; an extra part is declared', (name) => {
    const versions = versionsOf(name);
    const source = sourceOf(versions)!;
    for (const version of versions) expect(drifts(source, version)).toEqual([]);
  });
  it.each([
    ['nettle-fair', 'M:6/8', 'M:9/8', /^The meter is 9\/8 here and 6\/8 in the source/],
    ['towpath-breakdown', 'K:G clef', 'K:A clef', /^The key is A here and G in the source; say so with key-shift=/],
    ['towpath-breakdown', ' extra=K', '', /^The source has no part K\. List it as extra=K/],
    ['lamplighters-ladder', 'D2CD "Bm"B,A,F,A,|', '', /^Part A has 7 bars here and 8 bars in the source/],
    ['orrins-lantern', 'P:B\n', '', /^Part B of the source is missing here/],
  ] as const)('%s: %s to "%s" is said in the player’s words', (name, from, to, words) => {
    const versions = versionsOf(name);
    const low = versions[1]!.text.replace(from, to);
    expect(low).not.toBe(versions[1]!.text);
    expect(drifts(sourceOf(versions)!, stageOf(low))).toEqual(expect.arrayContaining([expect.stringMatching(words)]));
  });
});
