// Which notes and rests stand together: those of a beat, of half a bar where eighth notes are the quickest (common practice of beaming).
import { compare, div, sub, toNumber } from '../../score/fraction.ts';
import type { Bar, Fraction, Score, Voice } from '../../score/types.ts';
import { barBeat } from '../shared/beats.ts';

interface Event {
  readonly from: number;
  readonly bar: number;
  readonly layer: number;
  readonly onset: Fraction;
  readonly duration: Fraction;
}

/** By the place of a note, chord or rest in the tune: the name of its group, unique in the tune. None in free meter. */
export function beatGroups(score: Score): ReadonlyMap<number, string> {
  const groups = new Map<number, string>();
  for (const [v, voice] of score.voices.entries()) {
    const byBar: Event[][] = voice.bars.map(() => []);
    for (const event of eventsOf(voice)) byBar[event.bar]?.push(event);
    for (const bar of voice.bars) groupBar(`${v} ${bar.index}`, voice, bar, byBar[bar.index] ?? [], groups);
  }
  return groups;
}

const eventsOf = (voice: Voice): readonly Event[] => [...voice.notes.filter((note) => note.kind === 'note'), ...voice.rests];

function groupBar(name: string, voice: Voice, bar: Bar, events: readonly Event[], into: Map<number, string>): void {
  const unit = unitOf(bar, events);
  if (unit === null) return;
  const shift = isPickup(voice, bar) && bar.nominal !== null ? sub(bar.nominal, bar.duration) : { num: 0, den: 1 };
  for (const event of events) {
    const beats = toNumber(div(sub(event.onset, bar.onset), unit)) + toNumber(div(shift, unit));
    into.set(event.from, `${name} ${event.layer} ${Math.floor(beats + 1e-9)}`);
  }
}

const EIGHTH: Fraction = { num: 1, den: 8 };
const HALF: Fraction = { num: 1, den: 2 };

/** The beat; half a bar in four-four where nothing is quicker than an eighth note. */
function unitOf(bar: Bar, events: readonly Event[]): Fraction | null {
  const beat = barBeat(bar);
  if (beat === null || bar.meter.kind !== 'time') return beat;
  const fourFour = bar.meter.unit === 4 && bar.meter.beats.length === 1 && bar.meter.beats[0] === 4;
  return fourFour && events.every((event) => compare(event.duration, EIGHTH) >= 0) ? HALF : beat;
}

/** A short bar that begins a section is counted back from its end. */
function isPickup(voice: Voice, bar: Bar): boolean {
  if (bar.nominal === null || compare(bar.duration, bar.nominal) >= 0) return false;
  const before = voice.bars[bar.index - 1];
  return (
    before === undefined ||
    before.endRepeats > 0 ||
    before.sectionEnd ||
    bar.startRepeats > 0 ||
    voice.parts.some((part) => part.bar === bar.index)
  );
}
