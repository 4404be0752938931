// All that we draw on one engraved system: the tab under each bass voice and what stands above and between the notes.
import type { Plan } from '../arrangement/types.ts';
import type { EngravedStaff, EngravedSystem } from '../engraving/types.ts';
import type { Voice, VoiceId } from '../score/types.ts';
import { accentShape, type Density, drawAbove, isAccented } from './above.ts';
import { drawJoins } from './joins.ts';
import { betweenTabs, type FigureWidths, halfStop, leastOverTab, overTab, tabHeight, usualFigures } from './measures.ts';
import { notesOfVoice } from './notes.ts';
import { drawRhythm, rhythmRoom, underStems } from './rhythm.ts';
import type { Shape } from './shapes.ts';
import { lowestInk, skylineOf } from './skyline.ts';
import { drawTab, stopsOf, type TabPlace } from './tab.ts';

export interface Look {
  readonly density: Density;
  /** The voices that get a tab. */
  readonly bassVoices: readonly VoiceId[];
  /** Voices whose rhythm stands under their tab. */
  readonly rhythms?: readonly Voice[];
  /** Widths of figures of the faces that draw the stops, as shares of their size; those of a usual sans if it is not said. */
  readonly figures?: FigureWidths;
}

/** Strings of the standard tuning: what a tab shows before a plan says otherwise. */
const usualStrings = ['G', 'D', 'A', 'E'];

/** A tab of a system: which staff and voice it belongs to, where it stands. */
export interface PlacedTab extends TabPlace {
  readonly staff: number;
  readonly voice: VoiceId;
  /** y of its lowest line. */
  readonly bottom: number;
}

const stringsOf = (plans: readonly Plan[], voice: VoiceId): readonly string[] =>
  plans.find((plan) => plan.voice === voice)?.strings ?? usualStrings;

const rhythmOf = (look: Look, voice: VoiceId): Voice | null => look.rhythms?.find(({ id }) => id === voice) ?? null;

function tabTop(staff: EngravedStaff): number {
  return Math.max(staff.bottom + leastOverTab, lowestInk(staff.ink, staff.bottom) + overTab);
}

/** Where the tabs of a system stand: under the lowest ink of their staff, one below the other. */
export function placeTabs(system: EngravedSystem, plans: readonly Plan[], look: Look): readonly PlacedTab[] {
  return system.staffs.flatMap((staff, s) => {
    let top = tabTop(staff);
    return staff.voices
      .filter((voice) => look.bassVoices.includes(voice))
      .map((voice) => {
        const strings = stringsOf(plans, voice);
        const bottom = top + tabHeight(strings.length);
        const tab = { staff: s, voice, strings, top, bottom };
        top = bottom + betweenTabs + (rhythmOf(look, voice) === null ? 0 : rhythmRoom);
        return tab;
      });
  });
}

function drawVoice(system: EngravedSystem, tab: PlacedTab, plans: readonly Plan[], look: Look): Shape[] {
  const notes = notesOfVoice(system, tab.staff, tab.voice, plans);
  const stops = stopsOf(notes, tab, look.figures ?? usualFigures);
  const rhythm = rhythmOf(look, tab.voice);
  const accentTop = tab.bottom + (rhythm === null ? halfStop + 3 : underStems);
  const accents = notes.filter(isAccented).map((note) => accentShape(note, note.x, accentTop));
  const lines = new Map(system.bars.flatMap(({ staff, x, source }) => (staff === tab.staff && source !== null ? [[source.from, x]] : [])));
  return [
    ...drawTab(system, tab.staff, tab, stops),
    ...drawJoins(notes, stops, system.right),
    ...(stops.length > 0 ? accents : []),
    ...(rhythm === null ? [] : drawRhythm(notes, rhythm, tab.bottom, lines)),
  ];
}

/**
 * The shapes of one system, in the system's own units. `plans` may be empty: what the player wrote is then drawn,
 * and the tab stands empty where the stops will come.
 */
export function drawSystem(system: EngravedSystem, plans: readonly Plan[], look: Look): readonly Shape[] {
  const tabs = placeTabs(system, plans, look);
  const above = system.staffs.flatMap((staff, s) => {
    const sky = skylineOf(staff.ink);
    const edges = { top: staff.top, right: system.right };
    const voices = staff.voices.map((voice) => notesOfVoice(system, s, voice, plans));
    return drawAbove(voices, sky, edges, look.density);
  });
  return [...above, ...tabs.flatMap((tab) => drawVoice(system, tab, plans, look))];
}
