// From the engine's answer to a plan: by note id, in the text's places, JSON-safe.
import { stopMm } from '../bass/index.ts';
import type { Articulation, Fingered, Place, Placing, Unplayable, Window } from '../fingering/types.ts';
import { toText } from '../score/fraction.ts';
import { pluckingPace } from './attacks.ts';
import { measuringTempo } from './task.ts';
import type { BassPart, PartNote, Plan, PlanNote, PlanPlace, PlanWindow } from './types.ts';

/** The plan of a part. */
export function toPlan(part: BassPart, result: Fingered | Unplayable): Plan {
  const placings = result.kind === 'fingered' ? result.placings : result.rest;
  const measure = measuringTempo(part);
  const bpm = (factor: number | null): number | null => (factor === null ? null : Math.floor(measure.bpm * factor + 1e-6));
  const plucking = pluckingPace(part);
  /** Both hands must keep up. */
  const least = (which: 'comfortable' | 'limit'): number | null => {
    const bound = [result.topTempo[which], plucking[which]].filter((factor) => factor !== null);
    return bound.length === 0 ? null : Math.min(...bound);
  };
  return {
    voice: part.voice,
    playable: result.kind === 'fingered',
    exact: result.kind === 'fingered' ? result.exact : true,
    cost: result.kind === 'fingered' ? result.cost : null,
    topTempo: { beat: toText(measure.beat), comfortable: bpm(least('comfortable')), limit: bpm(least('limit')) },
    tempo: part.tempo === null ? null : { beat: toText(part.tempo.beat), bpm: part.tempo.bpm },
    shifts: placings.filter((p) => p?.shift === true).length,
    travelMm: Math.round(placings.reduce((sum, p) => sum + (p?.travel ?? 0), 0)),
    strings: part.setup.tuning.strings.map((string) => string.name),
    notes: part.notes.map((note, i) => planNote(part, note, placings[i] ?? null)),
    windows: result.kind === 'fingered' ? [] : result.windows.map((window) => planWindow(part, window)),
  };
}

function planNote(part: BassPart, note: PartNote, placing: Placing | null): PlanNote {
  return {
    id: note.id,
    from: note.note.from,
    to: note.to,
    onset: toText(note.onset),
    sounding: note.sounding,
    places: placing?.places.map((place) => planPlace(part, place)) ?? [],
    hand: placing?.hand ?? null,
    shift: placing?.shift ?? false,
    pinned: pinned(note),
    articulation: spokenArticulation(note.articulation),
    attack: note.articulation,
    tied: note.tied,
  };
}

/** A place by the string's name, with its distance from the nut in mm. */
export function planPlace(part: BassPart, place: Place): PlanPlace {
  return {
    string: part.setup.tuning.strings[place.string]?.name ?? '',
    stop: place.stop,
    finger: place.finger,
    mm: Math.round(stopMm(part.setup.mensur, place.stop) * 10) / 10,
    harmonic: place.harmonic,
  };
}

function pinned(note: PartNote): PlanNote['pinned'] {
  const kinds = ['finger', 'string', 'harmonic'] as const;
  return kinds.filter((kind) => note.pins.some((pin) => pin[kind] !== null));
}

function spokenArticulation(attack: Articulation): PlanNote['articulation'] {
  switch (attack) {
    case 'hammer':
    case 'pull':
      return attack;
    case 'glide':
    case 'scoop':
      return 'slide';
    case 'pluck':
    case 'left-hand':
    case 'dead':
      return 'pluck';
  }
}

function planWindow(part: BassPart, window: Window): PlanWindow {
  const { first, last, ...limits } = window;
  const notes = part.notes.slice(first, last + 1);
  return {
    ...limits,
    from: notes[0]?.note.from ?? 0,
    to: notes.reduce((to, note) => Math.max(to, note.to), 0),
    notes: notes.map((note) => note.id),
  };
}
