// Layers of the graph: the states of one note, interned so that equal notes share them.
import type { Asked, Grip, GripRules } from './grips.ts';
import { gripsFor } from './grips.ts';
import { noHand } from './hands.ts';
import { freeMost } from './limits/time.ts';
import type { Place, TaskNote } from './types.ts';

/** One way to play a note: the grip, the hand (for open strings the one left behind) and how many open notes since it was last stopped (0 when stopped). */
export interface State {
  readonly places: readonly Place[];
  readonly hand: number;
  readonly free: number;
  readonly cost: number;
  /** Index of the grip in its note, the same for all hands an open string may carry. */
  readonly grip: number;
}

/** The grips of a note, by a number of their own. */
export interface GripSet {
  readonly id: number;
  readonly grips: readonly Grip[];
}

/** The states of a note in a fixed order, which decides ties. */
export interface Layer {
  readonly id: number;
  readonly gripSet: GripSet;
  readonly states: readonly State[];
  /** Hand, count of open notes and grip of each state once more, for the inner loops. */
  readonly hands: Uint8Array;
  readonly freeNotes: Uint8Array;
  readonly gripOf: Uint16Array;
  /** Hands that an open string after this note may carry. */
  readonly carried: Carried;
  /** Most open notes that any state counts. */
  readonly freeMost: number;
}

/** Hands with counts of open notes, as pairs. */
export interface Carried {
  readonly id: number;
  readonly pairs: readonly (readonly [hand: number, free: number])[];
}

/** Interned layers of one owner. */
export interface Layers {
  /** The hand before the first stopped note. */
  readonly start: Carried;
  layerFor(note: TaskNote, before: Carried): Layer;
}

/** An empty set of layers under `rules`; `grew` hears of the bytes each new one takes. */
export function makeLayers(rules: GripRules, grew: (bytes: number) => void): Layers {
  const grips = new Map<string, GripSet>();
  const layers = new Map<string, Layer>();
  const carried = new Map<string, Carried>();
  const intern = (pairs: Carried['pairs']): Carried => {
    const key = pairs.map(([hand, free]) => hand * 8 + free).join();
    const found = carried.get(key) ?? { id: carried.size, pairs };
    carried.set(key, found);
    return found;
  };
  const gripsOf = (asked: Asked, key: string): GripSet => {
    const found = grips.get(key) ?? { id: grips.size, grips: gripsFor(rules, asked) };
    grips.set(key, found);
    return found;
  };
  return {
    start: intern([[noHand, 1]]),
    layerFor: (note, before) => {
      const asked = keyOf(note);
      const own = gripsOf(note, asked);
      const key = own.grips.some((grip) => grip.hand === noHand) ? `${asked}|${before.id}` : asked;
      const found = layers.get(key);
      if (found) return found;
      const states = own.grips.flatMap((grip, index) => statesOf(grip, index, before));
      const layer = layerOf(layers.size, own, states, intern(carriedBy(states)));
      layers.set(key, layer);
      grew(states.length * bytesPerState);
      return layer;
    },
  };
}

const bytesPerState = 124;

function layerOf(id: number, gripSet: GripSet, states: readonly State[], carried: Carried): Layer {
  const freeNotes = Uint8Array.from(states, ({ free }) => free);
  return {
    id,
    gripSet,
    states,
    hands: Uint8Array.from(states, ({ hand }) => hand),
    freeNotes,
    gripOf: Uint16Array.from(states, ({ grip }) => grip),
    carried,
    freeMost: freeNotes.reduce((most, free) => Math.max(most, free), 0),
  };
}

function statesOf(grip: Grip, index: number, before: Carried): readonly State[] {
  const base = { places: grip.places, cost: grip.cost, grip: index };
  if (grip.hand !== noHand) return [{ ...base, hand: grip.hand, free: 0 }];
  return before.pairs.map(([hand, free]) => ({ ...base, hand, free }));
}

/** A stopped hand is left behind with one open note to come, an open string's with one more than before. */
function carriedBy(states: readonly State[]): Carried['pairs'] {
  const seen = new Set(states.map(({ hand, free }) => hand * 8 + (hand === noHand ? 1 : Math.min(freeMost, free + 1))));
  return [...seen].sort((a, b) => a - b).map((code) => [code >> 3, code & 7] as const);
}

function keyOf(note: TaskNote): string {
  const pins = note.pins.map((pin) => `${pin.finger ?? ''}/${pin.string ?? ''}${pin.harmonic ? 'h' : ''}`);
  const way = note.articulation === 'scoop' || note.articulation === 'left-hand' ? note.articulation : '';
  return `${note.pitches.join()};${pins.join()};${note.handStop ?? ''};${way}`;
}
