// A bar as a MusicXML measure: attributes where they change, directions, notes by layer, bar lines with repeats and endings.

import { barNumber, isOpeningPickup } from '../../score/bar-numbers.ts';
import { add, compare, equal, sub, toNumber, ZERO } from '../../score/fraction.ts';
import { fifthsOf } from '../../score/index.ts';
import type { Bar, Fraction, Rest, Score, ScoreNote, Tempo } from '../../score/types.ts';
import { noteValue } from '../values.ts';
import { element, textElement } from '../xml.ts';
import { harmonyElement } from './harmony.ts';
import { noteElements, restElement } from './note.ts';
import { inDivisions, type Part } from './part.ts';

/** The measure of bar `index` of the part's voice. */
export function measureElement(score: Score, part: Part, index: number): string {
  const bar = part.voice.bars[index]!;
  const before = part.voice.bars[index - 1] ?? null;
  const next = part.voice.bars[index + 1] ?? null;
  return element(
    'measure',
    { number: barNumber(part.voice, index), implicit: isOpeningPickup(bar) ? 'yes' : null },
    attributes(part, bar, before),
    leftLine(bar, before),
    part.kind === 'staff' ? directions(score, part, bar) : null,
    layers(part, bar),
    rightLine(bar, next),
  );
}

function attributes(part: Part, bar: Bar, before: Bar | null): string | null {
  const first = before === null;
  const key = first || fifthsOf(before.key) !== fifthsOf(bar.key) ? element('key', {}, textElement('fifths', fifthsOf(bar.key))) : '';
  const time = first || JSON.stringify(before.meter) !== JSON.stringify(bar.meter) ? timeElement(bar) : '';
  if (!first && key === '' && time === '') return null;
  return element('attributes', {}, first ? textElement('divisions', part.divisions) : null, key, time, first ? clefs(part) : null);
}

function timeElement({ meter }: Bar): string {
  if (meter.kind === 'none') return element('time', {}, element('senza-misura', {}));
  const symbol = meter.sign === 'C' ? 'common' : meter.sign === 'C|' ? 'cut' : null;
  return element('time', { symbol }, textElement('beats', meter.beats.join('+')), textElement('beat-type', meter.unit));
}

const signs = { treble: ['G', 2], alto: ['C', 3], tenor: ['C', 4], bass: ['F', 4], perc: ['percussion', 2], none: ['none', 2] } as const;

/** Clef, tuning of a tab, and the octave by which a bass sounds lower than its text. */
function clefs(part: Part): string {
  const octave =
    part.plan === null
      ? ''
      : element('transpose', {}, textElement('diatonic', 0), textElement('chromatic', 0), textElement('octave-change', -1));
  if (part.kind === 'tab' && part.plan !== null) {
    const lines = part.plan.strings.length;
    return (
      element('clef', {}, textElement('sign', 'TAB'), textElement('line', lines)) +
      element('staff-details', {}, textElement('staff-lines', lines)) +
      octave
    );
  }
  const [sign, line] = signs[part.voice.clef.shape];
  const shift = part.voice.clef.octave;
  return (
    element(
      'clef',
      {},
      textElement('sign', sign),
      textElement('line', part.voice.clef.line ?? line),
      shift === 0 ? null : textElement('clef-octave-change', shift),
    ) + octave
  );
}

function leftLine(bar: Bar, before: Bar | null): string {
  const opens = bar.startRepeats > 0 ? element('repeat', { direction: 'forward' }) : '';
  const starts = bar.ending.length > 0 && bar.ending.join() !== before?.ending.join();
  const ending = starts ? element('ending', { number: bar.ending.join(','), type: 'start' }) : '';
  return opens === '' && ending === ''
    ? ''
    : element('barline', { location: 'left' }, opens === '' ? null : textElement('bar-style', 'heavy-light'), ending, opens);
}

function rightLine(bar: Bar, next: Bar | null): string {
  const ends = bar.ending.length > 0 && bar.ending.join() !== next?.ending.join();
  const ending = ends ? element('ending', { number: bar.ending.join(','), type: 'stop' }) : '';
  const repeat =
    bar.endRepeats > 0 ? element('repeat', { direction: 'backward', times: bar.endRepeats > 1 ? bar.endRepeats + 1 : null }) : '';
  const style = repeat !== '' || next === null ? 'light-heavy' : bar.sectionEnd ? 'light-light' : '';
  if (style === '' && ending === '') return '';
  return element('barline', { location: 'right' }, style === '' ? null : textElement('bar-style', style), ending, repeat);
}

function directions(score: Score, part: Part, bar: Bar): string {
  const label = part.voice.parts.find((each) => each.bar === bar.index)?.label;
  const rehearsal =
    label === undefined ? '' : element('direction', { placement: 'above' }, element('direction-type', {}, textElement('rehearsal', label)));
  return (
    rehearsal +
    score.tempos
      .filter((tempo) => equal(tempo.onset, bar.onset))
      .map(tempoElement)
      .join('')
  );
}

function tempoElement(tempo: Tempo): string {
  const words = tempo.words === null ? '' : element('direction-type', {}, textElement('words', tempo.words));
  const value = tempo.beat && noteValue(tempo.beat);
  const timed = tempo.beat !== null && tempo.bpm !== null;
  const metronome =
    timed && value
      ? element(
          'direction-type',
          {},
          element(
            'metronome',
            {},
            textElement('beat-unit', value.name),
            '<beat-unit-dot/>'.repeat(value.dots),
            textElement('per-minute', tempo.bpm),
          ),
        )
      : '';
  const sound = timed ? element('sound', { tempo: Math.round(tempo.bpm * toNumber(tempo.beat) * 4 * 1000) / 1000 }) : '';
  if (words === '' && metronome === '') return '';
  return element('direction', { placement: 'above' }, words, metronome, sound);
}

type Item = { readonly onset: Fraction; readonly duration: Fraction; readonly xml: string };

/** The layers of a bar one after the other, each from the bar's start; time without notes is skipped over. */
function layers(part: Part, bar: Bar): string {
  const notes = part.voice.notes.filter((note) => note.bar === bar.index);
  const rests = part.voice.rests.filter((rest) => rest.bar === bar.index);
  const numbers = [...new Set([...notes, ...rests].map((item) => item.layer))].sort((a, b) => a - b);
  return numbers
    .map((layer, i) => {
      const back = i === 0 ? '' : element('backup', {}, textElement('duration', inDivisions(part, bar.duration)));
      return back + layerElements(part, bar, itemsOf(part, notes, rests, layer));
    })
    .join('');
}

function itemsOf(part: Part, notes: readonly ScoreNote[], rests: readonly Rest[], layer: number): readonly Item[] {
  const sounding = notes
    .filter((note) => note.layer === layer)
    .map(
      (note): Item => ({
        onset: note.onset,
        duration: note.kind === 'grace' ? ZERO : note.duration,
        xml: harmonies(part, note) + noteElements(note, part),
      }),
    );
  const silent = rests
    .filter((rest) => rest.layer === layer)
    .map((rest): Item => ({ onset: rest.onset, duration: rest.duration, xml: restElement(rest, part) }));
  // Graces stand before their note, which begins at the same time: the sort is stable and keeps the text's order.
  return [...sounding, ...silent].sort((a, b) => compare(a.onset, b.onset));
}

const harmonies = (part: Part, note: ScoreNote): string =>
  part.kind === 'tab' ? '' : note.marks.map((mark) => (mark.kind === 'chord-symbol' ? harmonyElement(mark.text) : '')).join('');

function layerElements(part: Part, bar: Bar, items: readonly Item[]): string {
  let xml = '';
  let at = bar.onset;
  const skip = (to: Fraction): void => {
    if (compare(to, at) > 0) xml += element('forward', {}, textElement('duration', inDivisions(part, sub(to, at))));
  };
  for (const item of items) {
    skip(item.onset);
    xml += item.xml;
    at = add(item.onset, item.duration);
  }
  skip(add(bar.onset, bar.duration));
  return xml;
}
