// Notes and rests as MusicXML: pitch, length, ties, and how they are played.
import type { PlanNote, PlanPlace } from '../../arrangement/types.ts';
import type { Head, Lyric, Mark, Rest, ScoreNote } from '../../score/types.ts';
import { type NoteValue, noteValue } from '../values.ts';
import { element, textElement } from '../xml.ts';
import { inDivisions, type Part } from './part.ts';

/** All `note` elements of a written note: one a head. */
export const noteElements = (note: ScoreNote, part: Part): string => note.heads.map((head, i) => headElement(note, head, i, part)).join('');

function headElement(note: ScoreNote, head: Head, index: number, part: Part): string {
  const grace = note.kind === 'grace';
  const value = grace ? ({ name: 'eighth', dots: 0, tuplet: null } as const) : noteValue(head.duration);
  return element(
    'note',
    {},
    grace ? element('grace', {}) : null,
    index > 0 ? element('chord', {}) : null,
    pitch(head),
    grace ? null : textElement('duration', inDivisions(part, note.duration)),
    head.tied ? element('tie', { type: 'stop' }) : null,
    head.tieTo ? element('tie', { type: 'start' }) : null,
    textElement('voice', note.layer + 1),
    valueElements(value),
    part.kind === 'tab' ? textElement('stem', 'none') : null,
    notations(note, head, index, part),
    index === 0 && part.kind === 'staff' ? (part.lyrics.get(note.id) ?? []).map((lyric) => lyricElement(lyric, part)).join('') : null,
  );
}

const pitch = (head: Head): string =>
  element(
    'pitch',
    {},
    textElement('step', head.letter),
    head.alter === 0 ? null : textElement('alter', head.alter),
    textElement('octave', head.octave),
  );

function valueElements(value: Pick<NoteValue, 'name' | 'dots' | 'tuplet'> | null): string {
  if (value === null) return '';
  const { tuplet } = value;
  const modification =
    tuplet && element('time-modification', {}, textElement('actual-notes', tuplet.actual), textElement('normal-notes', tuplet.normal));
  return textElement('type', value.name) + '<dot/>'.repeat(value.dots) + (modification ?? '');
}

/** A rest; those unseen are not printed. */
export function restElement(rest: Rest, part: Part): string {
  const value = noteValue(rest.duration);
  return element(
    'note',
    { 'print-object': rest.seen ? null : 'no' },
    element('rest', {}),
    textElement('duration', inDivisions(part, rest.duration)),
    textElement('voice', rest.layer + 1),
    valueElements(value),
  );
}

function notations(note: ScoreNote, head: Head, index: number, part: Part): string | null {
  const planned = part.planned.get(note.id);
  const place = planned?.places[index];
  const parts = [
    head.tied ? element('tied', { type: 'stop' }) : '',
    head.tieTo ? element('tied', { type: 'start' }) : '',
    index === 0 && part.kind === 'staff' ? slurs(note, part) : '',
    index === 0 ? slides(note, part) : '',
    wrapped('technical', technical(note, planned, place, index, part)),
    index === 0 ? wrapped('articulations', articulations(note.marks)) : '',
  ];
  return parts.some((text) => text !== '') ? element('notations', {}, ...parts) : null;
}

const wrapped = (name: string, inside: string): string => (inside === '' ? '' : element(name, {}, inside));

function slurs(note: ScoreNote, part: Part): string {
  const ends = (part.slursTo.get(note.id) ?? []).map(({ number }) => element('slur', { type: 'stop', number }));
  const starts = (part.slursFrom.get(note.id) ?? []).map(({ slur, number }) =>
    element('slur', { type: 'start', number, 'line-type': slur.dotted ? 'dotted' : null }),
  );
  return [...ends, ...starts].join('');
}

function slides(note: ScoreNote, part: Part): string {
  const arrives = part.planned.get(note.id)?.attack === 'glide' && part.cameFrom.has(note.id);
  const leaves = part.goesTo.get(note.id)?.attack === 'glide';
  return [
    arrives ? element('slide', { type: 'stop', number: 1, 'line-type': 'solid' }) : '',
    leaves ? element('slide', { type: 'start', number: 1, 'line-type': 'solid' }) : '',
  ].join('');
}

/** Tab says string and stop (which the standard calls fret); the staff fingers and, at the thumb, its sign. */
function technical(note: ScoreNote, planned: PlanNote | undefined, place: PlanPlace | undefined, index: number, part: Part): string {
  const fingering = place === undefined ? '' : fingerElements(place);
  const joins = index === 0 ? joinElements(note, part) : '';
  const hand = planned?.attack === 'left-hand' ? textElement('other-technical', 'left-hand pizzicato') : '';
  const snap = note.marks.some((mark) => mark.kind === 'decoration' && mark.name === 'snap') ? element('snap-pizzicato', {}) : '';
  if (part.kind === 'staff') return fingering + joins + hand + snap;
  if (place === undefined || part.plan === null) return '';
  const string = textElement('string', part.plan.strings.indexOf(place.string) + 1);
  return fingering + string + textElement('fret', Math.max(0, place.stop)) + joins;
}

function fingerElements(place: PlanPlace): string {
  const harmonic = place.harmonic ? element('harmonic', {}, element('natural', {})) : '';
  if (place.finger === 'T') return element('thumb-position', {}) + harmonic;
  if (place.finger === '0') return element('open-string', {}) + harmonic;
  return textElement('fingering', place.finger) + harmonic;
}

const joinNames = { hammer: ['hammer-on', 'H'], pull: ['pull-off', 'P'] } as const;

function joinElements(note: ScoreNote, part: Part): string {
  const side = (attack: PlanNote['attack'] | undefined, type: 'start' | 'stop'): string => {
    if (attack !== 'hammer' && attack !== 'pull') return '';
    const [name, letter] = joinNames[attack];
    return element(name, { type, number: 1 }, type === 'start' ? letter : null);
  };
  return (
    side(part.cameFrom.has(note.id) ? part.planned.get(note.id)?.attack : undefined, 'stop') +
    side(part.goesTo.get(note.id)?.attack, 'start')
  );
}

function articulations(marks: readonly Mark[]): string {
  const names = marks.flatMap((mark) => (mark.kind === 'decoration' ? [mark.name] : []));
  const has = (...wanted: readonly string[]): boolean => names.some((name) => wanted.includes(name));
  return [
    has('>', 'accent', 'L', 'emphasis') ? element('accent', {}) : '',
    has('.', 'staccato') ? element('staccato', {}) : '',
    has('tenuto') ? element('tenuto', {}) : '',
    has('slide') ? element('scoop', {}) : '',
  ].join('');
}

function lyricElement(lyric: Lyric, part: Part): string {
  const verse = part.voice.lyrics.filter((other) => other.verse === lyric.verse);
  const before = verse[verse.indexOf(lyric) - 1]?.hyphen ?? false;
  const syllabic = lyric.hyphen ? (before ? 'middle' : 'begin') : before ? 'end' : 'single';
  return element('lyric', { number: lyric.verse }, textElement('syllabic', syllabic), textElement('text', lyric.text));
}
