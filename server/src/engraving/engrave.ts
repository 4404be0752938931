// A tune as systems, each drawn alone and kept with its key: an edit draws what changed and keeps the rest.

import type { VoiceId } from '../score/types.ts';
import type { Span } from '../text/span.ts';
import { cleanTree } from './clean.ts';
import { type Guarded, guarded } from './guard.ts';
import { firstHanded, type Handed, handedOn, systemKey } from './handed.ts';
import { matchNotes, type NoteIndex, noteIndex, notesIn, type Turns, turnsOf } from './heads.ts';
import { type LibElement, type LibLine, type LibTune, parseTune } from './library.ts';
import { sourceSpan } from './offsets.ts';
import type { Measure } from './picture.ts';
import { type DrawnSystem, drawLine } from './system.ts';
import { splitTuplets } from './tuplets.ts';
import type { EngravedBar, EngravedNote, EngravedSystem, EngravingText, Headroom, SceneNote } from './types.ts';

/** A system with its picture, kept from one drawing to the next. */
export interface KeptSystem {
  readonly key: string;
  readonly drawn: DrawnSystem;
}

/** A system for the page: kept or new picture, geometry, and what stands where in the present text. */
export interface SheetSystem {
  readonly kind: 'system';
  readonly kept: KeptSystem;
  readonly system: EngravedSystem;
}

/** A line of words between systems. */
export interface SheetWords {
  readonly kind: 'words';
  readonly text: string;
  readonly role: 'subtitle' | 'text';
}

export type SheetItem = SheetSystem | SheetWords;

export interface EngraveOptions {
  /** Width of the staff in units of the engraving. */
  readonly width: number;
  /** Room between a staff with tab and the next staff, in units. */
  readonly tabRoom: number;
  readonly headroom: Headroom;
  readonly bassVoices: readonly VoiceId[];
}

/** A tune parsed and cleaned, ready to be drawn line by line. */
export interface ParsedTune {
  readonly tune: LibTune;
  readonly text: EngravingText;
  readonly notes: NoteIndex;
  readonly turns: Turns;
  /** The voice of each drawn voice, by staff and layer, where the notes tell it. */
  readonly voices: ReadonlyMap<string, VoiceId>;
}

const placeKey = (staff: number, layer: number): string => `${staff} ${layer}`;

/** The voice of the first note in these elements that the scene has; null if there is none. */
function voiceOf(elements: readonly LibElement[], notes: NoteIndex, text: EngravingText): VoiceId | null {
  for (const element of elements) {
    if (element.pitches === undefined) continue;
    const [note] = notesIn(element, notes, text);
    if (note !== undefined) return note.voice;
  }
  return null;
}

/** The voice of the score that each drawn voice is, as its first note says. */
function voicesOf(lines: readonly LibLine[], notes: NoteIndex, text: EngravingText): Map<string, VoiceId> {
  const voices = new Map<string, VoiceId>();
  for (const line of lines) {
    line.staff?.forEach((staff, s) => {
      staff.voices.forEach((elements, layer) => {
        const key = placeKey(s, layer);
        const voice = voices.has(key) ? null : voiceOf(elements, notes, text);
        if (voice !== null) voices.set(key, voice);
      });
    });
  }
  return voices;
}

/** Parses a tune for drawing. */
export function parse(text: EngravingText, sceneNotes: readonly SceneNote[]): Guarded<ParsedTune> {
  return guarded('parse', () => {
    const tune = parseTune(text.text);
    cleanTree(tune.lines);
    splitTuplets(tune.lines);
    const notes = noteIndex(sceneNotes);
    const elements = tune.lines.flatMap((line) => line.staff?.flatMap((staff) => staff.voices.flat()) ?? []);
    return { tune, text, notes, turns: turnsOf(elements, notes, text), voices: voicesOf(tune.lines, notes, text) };
  });
}

function staffVoices(parsed: ParsedTune, line: LibLine, staff: number): VoiceId[] {
  const layers = line.staff![staff]!.voices.map((_, layer) => parsed.voices.get(placeKey(staff, layer)));
  return [...new Set(layers.filter((voice) => voice !== undefined))];
}

/** Number of bass voices on each staff. */
function tabsOf(parsed: ParsedTune, line: LibLine, options: EngraveOptions): number[] {
  return line.staff!.map((_, staff) => staffVoices(parsed, line, staff).filter((voice) => options.bassVoices.includes(voice)).length);
}

const isNote = (element: LibElement): boolean => element.pitches !== undefined;

/** Where the notes of a drawn voice stand in the text; null for none. */
function stretchOf(elements: readonly LibElement[], text: EngravingText): Span | null {
  const [first, last] = [elements.find(isNote), elements.findLast(isNote)];
  return first === undefined || last === undefined ? null : sourceSpan(text, first.startChar, last.endChar);
}

/** Stems and beams of graces reach so far over what the library counts: seen over a thousand systems of open corpora. */
const graceRoom = 17;

const roomForGraces = (line: LibLine, staff: number): number =>
  line.staff![staff]!.voices.flat().some(({ gracenotes }) => gracenotes !== undefined) ? graceRoom : 0;

/** Room over the notes of each staff of a line for the rows of its tabs: that of the note that takes most, for each of them. `tall` are the notes that take more than usual. */
function headroomsOf(parsed: ParsedTune, line: LibLine, tabs: readonly number[], headroom: Headroom, tall: readonly SceneNote[]): number[] {
  return tabs.map((count, s) => {
    if (count === 0) return 0;
    const voices = staffVoices(parsed, line, s);
    const stretches = tall.length === 0 ? [] : line.staff![s]!.voices.map((elements) => stretchOf(elements, parsed.text));
    const here = ({ from, voice }: SceneNote): boolean =>
      voices.includes(voice) && stretches.some((stretch) => stretch !== null && from >= stretch.from && from < stretch.to);
    return count * Math.max(headroom.usual, ...tall.filter(here).map((note) => headroom.over(note)));
  });
}

/** Geometry of a kept or fresh drawing with the places of the present text: found again by index, never shifted. */
function systemOf(parsed: ParsedTune, line: LibLine, { geometry, reach, ink }: DrawnSystem, headrooms: readonly number[]): EngravedSystem {
  const elementAt = (at: { readonly staff: number; readonly layer: number; readonly index: number }) =>
    line.staff![at.staff]!.voices[at.layer]![at.index]!;
  const notes: EngravedNote[] = geometry.notes.flatMap((note) => matchNotes(note, elementAt(note), parsed));
  const bars: EngravedBar[] = geometry.bars.map((bar) => {
    const element = elementAt(bar);
    return { staff: bar.staff, x: bar.x, width: bar.width, source: sourceSpan(parsed.text, element.startChar, element.endChar) };
  });
  const staffs = geometry.staffs.map(({ top, bottom }, i) => {
    return { top, bottom, ink: ink[i]!, headroom: headrooms[i]!, voices: staffVoices(parsed, line, i) };
  });
  return { left: geometry.left, right: geometry.right, reach, staffs, notes, bars };
}

const wordsOf = (line: LibLine): SheetWords | null => {
  if (line.subtitle !== undefined) return { kind: 'words', text: line.subtitle.text, role: 'subtitle' };
  if (typeof line.text === 'string') return { kind: 'words', text: line.text, role: 'text' };
  if (Array.isArray(line.text)) {
    const parts = line.text.map((part: { readonly text?: unknown }) => (typeof part.text === 'string' ? part.text : ''));
    return { kind: 'words', text: parts.join(''), role: 'text' };
  }
  return null;
};

/** Pictures of the last drawing by key, for reuse; the same key may stand for several. */
export function keptByKey(items: readonly SheetItem[]): Map<string, KeptSystem[]> {
  const kept = new Map<string, KeptSystem[]>();
  for (const item of items) {
    if (item.kind !== 'system') continue;
    const same = kept.get(item.kept.key);
    if (same === undefined) kept.set(item.kept.key, [item.kept]);
    else same.push(item.kept);
  }
  return kept;
}

/** What is fixed before the first line: a change of it redraws every system. */
const groundKey = (parsed: ParsedTune, options: EngraveOptions): string =>
  JSON.stringify([parsed.tune.formatting, parsed.tune.media, options.width, options.tabRoom, options.headroom.usual]);

/**
 * Draws a tune line by line, as a generator so that the caller may rest between systems. Yields an item a line, in order.
 * `kept` holds the last drawing's systems; those used again are taken out of it. Throws what the library throws.
 */
export function* drawTune(
  parsed: ParsedTune,
  options: EngraveOptions,
  kept: Map<string, KeptSystem[]>,
  measure: Measure,
): Generator<SheetItem, void> {
  const { tune } = parsed;
  const ground = groundKey(parsed, options);
  const tall = parsed.notes.filter((note) => options.headroom.over(note) > options.headroom.usual);
  const first = tune.lines.findIndex((line) => line.staff !== undefined);
  let handed: Handed = firstHanded(tune);
  for (let i = 0; i < tune.lines.length; i++) {
    const line = tune.lines[i]!;
    if (line.staff === undefined) {
      const words = wordsOf(line);
      if (words !== null) yield words;
      continue;
    }
    const place = { first: i === first, last: i === tune.lines.length - 1 };
    const tabs = tabsOf(parsed, line, options);
    const headrooms = headroomsOf(parsed, line, tabs, options.headroom, tall);
    const key = `${ground}\n${tabs} ${headrooms}\n${systemKey(tune, i, handed, place)}`;
    let system = kept.get(key)?.shift();
    if (system === undefined) {
      const rooms = tabs.map((count) => count * options.tabRoom);
      const over = headrooms.map((headroom, s) => (headroom === 0 ? roomForGraces(line, s) : headroom));
      system = { key, drawn: drawLine(tune, { line: i, handed, place, width: options.width, rooms, headrooms: over }, measure) };
    }
    yield { kind: 'system', kept: system, system: systemOf(parsed, line, system.drawn, headrooms) };
    handed = handedOn(system.drawn.handed, handed, line.staff);
  }
}
