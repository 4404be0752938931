// A tune moved into another key for a page: by our own transposing, pins along where a hand can follow. The file stays as it is.
import { readKey } from '../abc/read/key.ts';
import type { KeyValue } from '../abc/tree/fields.ts';
import { type PinFate, partStage, planStage, settlePins, transposeEdits } from '../arrangement/index.ts';
import type { PlanStage } from '../arrangement/types.ts';
import type { TableCache } from '../fingering/index.ts';
import { keyName } from '../handout/words.ts';
import type { Edit } from '../text/span.ts';
import { editedText, type OpenBook, placeName } from './book.ts';
import { bookOf } from './sources.ts';

/** A fingered tune in the key asked for, and what became of pins that could not simply move. */
export interface InKey {
  readonly stage: PlanStage;
  readonly told: readonly string[];
}

/** Moves a tune of a book the shorter way into a key like `D` or `Em`; the other way where only there a hand plays all of it. */
export function inKey(open: OpenBook, tune: number, wanted: string, tables: TableCache): InKey | { readonly problem: string } {
  const stage = planStage(open.book, tune, open.config, tables);
  const { key } = readKey(wanted);
  const stands = keyName(stage.score);
  if (key.tonic === null) return { problem: `"${wanted}" is no key; write one like D, Bb or Em.` };
  if (stands === wanted) return { stage, told: [] };
  if (stage.score.key.tonic === null) return { problem: `${open.source.name} has no key (K:) to be moved from.` };
  if (stage.score.key.mode !== key.mode)
    return { problem: `${open.source.name} stands in ${stands}, and ${wanted} is of another mode; only the tonic can be moved.` };
  const ways = semitonesTo(stage.score.key, key).map((by) => moved(open, tune, by, tables));
  return ways.find(isPlayable) ?? ways[0]!;
}

const isPlayable = ({ stage }: InKey): boolean => stage.fingered.every(({ plan }) => plan.playable);

const naturals = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 } as const;
const tonicOf = ({ tonic }: KeyValue): number => (tonic === null ? 0 : naturals[tonic.letter] + tonic.alter);

/** The semitones from a key to another, the shorter way first; none where both sound the same. */
function semitonesTo(from: KeyValue, to: KeyValue): readonly number[] {
  const up = (tonicOf(to) - tonicOf(from) + 24) % 12;
  if (up === 0) return [0];
  return up <= 6 ? [up, up - 12] : [up - 12, up];
}

/** The tune moved; passages that its pins then make unplayable lose them. */
function moved(open: OpenBook, tune: number, semitones: number, tables: TableCache): InKey {
  const { edits, pins } = transposeEdits(partStage(open.book, tune, open.config), semitones);
  const there = edited(open, tune, edits);
  const stage = planStage(there.book, tune, there.config, tables);
  const settled = settlePins(stage);
  const told = [...toldOf(open, tune, pins), ...toldOf(there, tune, settled.pins)];
  if (settled.edits.length === 0) return { stage, told };
  const free = edited(there, tune, settled.edits);
  return { stage: planStage(free.book, tune, free.config, tables), told };
}

function edited(open: OpenBook, tune: number, edits: readonly Edit[]): OpenBook {
  const source = { ...open.source, text: editedText(open, (each) => (each === tune ? edits : [])) };
  return { ...open, source, book: bookOf(source) };
}

const toldOf = (open: OpenBook, tune: number, pins: readonly PinFate[]): readonly string[] =>
  pins.map((pin) => `${placeName(open, tune, pin.from)}: ${pin.message}`);
