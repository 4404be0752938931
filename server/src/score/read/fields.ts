// Fields and directives: what they change for the tune or a voice.

import { plainText } from '../../abc/read/plain-text.ts';
import type { Field, FieldValue, KeyedValue, KeyValue, TempoValue } from '../../abc/tree/fields.ts';
import type { Offset, Span } from '../../text/span.ts';
import { shifted } from '../../text/span.ts';
import { add, fraction, mul, ZERO } from '../fraction.ts';
import { defaultUnit } from '../meter.ts';
import type { Fraction, Instruction, Tempo } from '../types.ts';
import { musicBegins } from './align.ts';
import { beginPart, resumeAt } from './bars.ts';
import { currentVoice, type TuneState, voiceNamed } from './tune-state.ts';
import { setKey, setProperties, type VoiceState } from './voice-state.ts';

const spanAt = (field: Field, at: Offset): Span => ({ from: at + field.from, to: at + field.to });

/** A field of the file header (`at` is -1: its spans are relative to the header) or of the tune's header. */
export function applyHeaderField(tune: TuneState, field: Field, at: Offset, scope: 'file' | 'tune'): void {
  const { value } = field;
  switch (value.kind) {
    case 'key':
      tune.key = value.key;
      tune.keyText = field.text;
      return;
    case 'meter':
      tune.meter = value.meter;
      tune.meterText = field.text;
      return;
    case 'unit':
      tune.unit = fraction(value.unit.num, value.unit.den);
      return;
    case 'tempo':
      tune.tempos.push(tempoOf(value.tempo, tune.unit ?? defaultUnit(tune.meter), ZERO, spanAt(field, at)));
      return;
    case 'voice':
      tune.headerVoice = value.id;
      tune.declared.set(value.id, { ...tune.declared.get(value.id), ...value.properties });
      return;
    case 'parts':
      tune.partOrder = value.order;
      return;
    case 'number':
      tune.number = value.number;
      return;
    case 'instruction':
      addHeaderInstruction(tune, field, value, at, scope);
      return;
    case 'user-symbol':
    case 'macro':
      return;
    case 'text':
      tune.texts.push({
        ...(scope === 'file' ? { from: -1, to: -1 } : spanAt(field, at)),
        letter: field.letter,
        text: plainText(field.text),
      });
      return;
    default:
      value satisfies never;
  }
}

type InstructionValue = Extract<FieldValue, { kind: 'instruction' }>;

function addHeaderInstruction(tune: TuneState, field: Field, value: InstructionValue, at: Offset, scope: 'file' | 'tune'): void {
  setReach(tune, value);
  const made = instructionOf(field, value, at, scope === 'tune' && tune.headerVoice !== null ? 'voice' : scope, ZERO, 0);
  if (made.scope !== 'voice') tune.instructions.push(made);
  else tune.declaredInstructions.set(tune.headerVoice!, [...(tune.declaredInstructions.get(tune.headerVoice!) ?? []), made]);
}

function setReach(tune: TuneState, { name, rest }: InstructionValue): void {
  if (name === 'propagate-accidentals' && (rest === 'octave' || rest === 'pitch' || rest === 'not')) tune.accidentalReach = rest;
}

function instructionOf(
  field: Field,
  value: InstructionValue,
  at: Offset,
  scope: Instruction['scope'],
  onset: Fraction,
  before: number,
): Instruction {
  const keyed: KeyedValue[] = value.keyed.map((pair) => ({
    ...pair,
    keySpan: shifted(pair.keySpan, at),
    valueSpan: shifted(pair.valueSpan, at),
  }));
  return { ...spanAt(field, at), name: value.name, rest: value.rest, keyed, scope, onset, before };
}

/** A field of the body, on a line of its own or in brackets. */
export function applyBodyField(tune: TuneState, field: Field, at: Offset): void {
  const { value } = field;
  if (value.kind === 'voice') {
    tune.current = voiceNamed(tune, value.id, at + field.to);
    setProperties(tune.current, value.properties);
    resumeAt(tune.current, at + field.to);
    musicBegins(tune.current);
    return;
  }
  const voice = currentVoice(tune, at + field.from);
  switch (value.kind) {
    case 'key':
      if (isClefOnly(value.key, field.text)) setProperties(voice, value.key.properties);
      else setKey(voice, value.key);
      return;
    case 'meter':
      voice.meter = value.meter;
      return;
    case 'unit':
      voice.unit = fraction(value.unit.num, value.unit.den);
      return;
    case 'tempo':
      tune.tempos.push(tempoOf(value.tempo, voice.unit, voice.time, spanAt(field, at)));
      return;
    case 'parts':
      beginPart(voice, value.label, spanAt(field, at));
      return;
    case 'instruction':
      addBodyInstruction(tune, voice, field, value, at);
      return;
    case 'number':
    case 'user-symbol':
    case 'macro':
    case 'text':
      return;
    default:
      value satisfies never;
  }
}

/** `K:clef=bass` in the body changes the clef and leaves the key. */
const isClefOnly = (key: KeyValue, text: string): boolean =>
  key.tonic === null && key.mode === 'none' && key.accidentals.length === 0 && text !== '' && !/^none/i.test(text);

function addBodyInstruction(tune: TuneState, voice: VoiceState, field: Field, value: InstructionValue, at: Offset): void {
  setReach(tune, value);
  voice.instructions.push(instructionOf(field, value, at, 'inline', voice.time, tune.nextId));
}

function tempoOf(tempo: TempoValue, unit: Fraction, onset: Fraction, span: Span): Tempo {
  return { ...span, onset, beat: beatOf(tempo, unit), bpm: tempo.bpm, words: tempo.words };
}

/** The beat in whole notes; the old forms count in unit lengths. */
function beatOf({ beats, bpm, form }: TempoValue, unit: Fraction): Fraction | null {
  if (bpm === null) return null;
  const sum = beats.reduce((all, beat) => add(all, fraction(beat.num, beat.den)), ZERO);
  if (form === 'standard') return sum;
  return beats.length === 0 ? unit : mul(sum, unit);
}
