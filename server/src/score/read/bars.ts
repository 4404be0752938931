// Bar lines, endings and parts in a voice.
import type { BarItem } from '../../abc/tree/items.ts';
import type { Offset, Span } from '../../text/span.ts';
import { compare, fraction, mul, sub } from '../fraction.ts';
import { barLength } from '../meter.ts';
import type { Bar } from '../types.ts';
import { endRhythms } from './rhythm.ts';
import type { TuneState } from './tune-state.ts';
import type { VoiceState } from './voice-state.ts';

/** Whether nothing has sounded or rested since the bar began. */
const isEmpty = (voice: VoiceState): boolean => voice.notes.length === voice.barNotes && voice.rests.length === voice.barRests;

/** A bar line whose line begins at `at` of the tune. */
export function addBarLine(tune: TuneState, voice: VoiceState, item: BarItem, at: Offset): void {
  endRhythms(tune, voice);
  const from = at + item.from;
  const to = from + item.sign.length;
  const sectionEnd = item.weight === 'double' || item.weight === 'final' || item.weight === 'initial';
  if (!isEmpty(voice)) closeBar(voice, { from, to, sign: item.sign }, item.endRepeats, sectionEnd);
  else mergeSign(voice, item, { from, to, sign: item.sign }, sectionEnd);
  if (item.startRepeats > voice.startRepeats) voice.startRepeats = item.startRepeats;
  if (voice.accidentals.size > 0) voice.accidentals.clear();
  voice.last = null;
  // Decorations before a bar line are the line's own; texts may stand before it and mean the next note.
  if (voice.marks) voice.marks = voice.marks.filter((mark) => mark.kind !== 'decoration');
  voice.barFrom = to;
  if (sectionEnd || item.endRepeats > 0 || item.startRepeats > 0) voice.ending = [];
  if (item.ending) voice.ending = item.ending.numbers;
}

/** Two signs with nothing between are one: what the second says goes to the bar before. */
function mergeSign(voice: VoiceState, item: BarItem, sign: NonNullable<Bar['closedBy']>, sectionEnd: boolean): void {
  const before = voice.bars.at(-1);
  if (!before) return;
  before.endRepeats = Math.max(before.endRepeats, item.endRepeats);
  before.sectionEnd ||= sectionEnd;
  if (item.endRepeats > 0 || item.startRepeats > 0) before.closedBy = sign;
}

/** An ending that does not follow a bar line at once; inside a bar it splits the bar. */
export function beginEnding(voice: VoiceState, numbers: readonly number[], at: Offset): void {
  splitBar(voice, at);
  voice.ending = numbers;
}

/** A part begins: `P:` in the body. */
export function beginPart(voice: VoiceState, label: string, span: Span): void {
  splitBar(voice, span.from);
  voice.part = label;
  voice.parts.push({ label, bar: voice.bars.length, span });
}

function splitBar(voice: VoiceState, at: Offset): void {
  if (!isEmpty(voice)) closeBar(voice, null, 0, false, at);
}

/** The text has ended: what is left is a bar, as far as its music reaches. */
export function closeLastBar(voice: VoiceState): void {
  splitBar(voice, Math.max(voice.barFrom, voice.notes.at(-1)?.to ?? 0, voice.rests.at(-1)?.to ?? 0));
}

/** The voice goes on here, after text of other voices: a bar that has nothing yet begins here. */
export function resumeAt(voice: VoiceState, at: Offset): void {
  if (isEmpty(voice)) voice.barFrom = at;
}

function closeBar(
  voice: VoiceState,
  closedBy: Bar['closedBy'],
  endRepeats: number,
  sectionEnd: boolean,
  to: Offset = closedBy?.to ?? voice.barFrom,
): void {
  if (compare(voice.layersEnd, voice.time) > 0) voice.time = voice.layersEnd;
  const length = barLength(voice.meter);
  voice.bars.push({
    from: voice.barFrom,
    to,
    index: voice.bars.length,
    onset: voice.barStart,
    duration: sub(voice.time, voice.barStart),
    nominal: length && voice.restBars > 1 ? mul(length, fraction(voice.restBars, 1)) : length,
    part: voice.part,
    ending: voice.ending,
    meter: voice.meter,
    key: voice.key,
    closedBy,
    startRepeats: voice.startRepeats,
    endRepeats,
    sectionEnd,
  });
  voice.barStart = voice.time;
  voice.barFrom = to;
  voice.barNotes = voice.notes.length;
  voice.barRests = voice.rests.length;
  voice.layer = 0;
  voice.layersEnd = voice.time;
  voice.startRepeats = 0;
  voice.restBars = 0;
}

/** `&`: the bar once more from its start, in another layer. */
export function beginLayer(tune: TuneState, voice: VoiceState): void {
  endRhythms(tune, voice);
  if (compare(voice.time, voice.layersEnd) > 0) voice.layersEnd = voice.time;
  voice.time = voice.barStart;
  voice.layer++;
  voice.accidentals.clear();
  voice.last = null;
}
