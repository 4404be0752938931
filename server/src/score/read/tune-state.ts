// A tune while it is being read: what all its voices share.

import { type TextErrorCode, textError } from '../../abc/read/errors.ts';
import type { KeyValue, MeterValue, PartOrder, VoiceProperties } from '../../abc/tree/fields.ts';
import type { TextError, TuneTree } from '../../abc/tree/tree.ts';
import type { Offset, Span } from '../../text/span.ts';
import { ACCIDENTALS_HOLD, type AccidentalReach } from '../conventions.ts';
import { defaultUnit } from '../meter.ts';
import type { Fraction, HeaderText, Instruction, NoteId, Tempo } from '../types.ts';
import { newVoice, type VoiceState } from './voice-state.ts';

export interface TuneState {
  readonly strictness: TuneTree['strictness'];
  number: number | null;
  readonly texts: HeaderText[];
  meter: MeterValue;
  meterText: string;
  /** As L: says; null while it says nothing and the meter decides. */
  unit: Fraction | null;
  key: KeyValue;
  keyText: string;
  accidentalReach: AccidentalReach;
  readonly tempos: Tempo[];
  partOrder: readonly PartOrder[];
  readonly instructions: Instruction[];
  /** Properties by voice, as V: fields of the header give them. */
  readonly declared: Map<string, VoiceProperties>;
  readonly declaredInstructions: Map<string, Instruction[]>;
  /** The voice that V: named last in the header. */
  headerVoice: string | null;
  readonly voices: Map<string, VoiceState>;
  current: VoiceState | null;
  nextId: NoteId;
  readonly errors: TextError[];
}

export const NO_KEY: KeyValue = { tonic: null, mode: 'none', accidentals: [], properties: {} };

export const newTune = (strictness: TuneTree['strictness']): TuneState => ({
  strictness,
  number: null,
  texts: [],
  meter: { kind: 'none' },
  meterText: '',
  unit: null,
  key: NO_KEY,
  keyText: '',
  accidentalReach: ACCIDENTALS_HOLD,
  tempos: [],
  partOrder: [],
  instructions: [],
  declared: new Map(),
  declaredInstructions: new Map(),
  headerVoice: null,
  voices: new Map(),
  current: null,
  nextId: 0,
  errors: [],
});

/** The voice of this name; new ones begin with what the header says. */
export function voiceNamed(tune: TuneState, id: string, at: Offset): VoiceState {
  const known = tune.voices.get(id);
  if (known) return known;
  const properties = { ...tune.key.properties, ...tune.declared.get(id) };
  const voice = newVoice(id, { meter: tune.meter, unit: tune.unit ?? defaultUnit(tune.meter), key: tune.key, properties }, at);
  voice.instructions.push(...tune.instructions, ...(tune.declaredInstructions.get(id) ?? []));
  tune.voices.set(id, voice);
  return voice;
}

/** The voice that music belongs to here: the one named last, else the first declared, else voice 1. */
export function currentVoice(tune: TuneState, at: Offset): VoiceState {
  if (!tune.current) {
    const [first = '1'] = tune.declared.keys();
    tune.current = voiceNamed(tune, first, at);
  }
  return tune.current;
}

/** Adds an error of meaning; `span` is relative to the tune. */
export function reportAt(tune: TuneState, code: TextErrorCode, span: Span, what = ''): void {
  tune.errors.push(textError(code, tune.strictness, span.from, span.to, what));
}
