// What a MusicXML part is made from: a voice on its staff, or the tab of a bass voice.
import type { Plan, PlanNote } from '../../arrangement/types.ts';
import { fraction, mul } from '../../score/fraction.ts';
import type { Fraction, Lyric, NoteId, Slur, Voice } from '../../score/types.ts';

export interface Part {
  readonly id: string;
  readonly name: string;
  readonly kind: 'staff' | 'tab';
  readonly voice: Voice;
  readonly plan: Plan | null;
  readonly planned: ReadonlyMap<NoteId, PlanNote>;
  /** The note that a hammered, pulled or slid note comes from, and the other way round. */
  readonly cameFrom: ReadonlyMap<NoteId, PlanNote>;
  readonly goesTo: ReadonlyMap<NoteId, PlanNote>;
  readonly lyrics: ReadonlyMap<NoteId, readonly Lyric[]>;
  /** Slurs and phrases with their number (1 to 16, over again), by first and last note. */
  readonly slursFrom: ReadonlyMap<NoteId, readonly NumberedSlur[]>;
  readonly slursTo: ReadonlyMap<NoteId, readonly NumberedSlur[]>;
  /** Divisions of a quarter note. */
  readonly divisions: number;
}

export interface NumberedSlur {
  readonly slur: Slur;
  readonly number: number;
}

export function partOf(id: string, name: string, kind: Part['kind'], voice: Voice, plan: Plan | null): Part {
  const joined = (plan?.notes ?? []).flatMap((note, i, all) => (all[i - 1] && isJoined(note) ? [[all[i - 1]!, note] as const] : []));
  const numbered = voice.slurs.map((slur, i): NumberedSlur => ({ slur, number: (i % 16) + 1 }));
  return {
    id,
    name,
    kind,
    voice,
    plan,
    planned: new Map((plan?.notes ?? []).map((note) => [note.id, note])),
    cameFrom: new Map(joined.map(([before, note]) => [note.id, before])),
    goesTo: new Map(joined.map(([before, note]) => [before.id, note])),
    lyrics: grouped(voice.lyrics, (lyric) => lyric.note),
    slursFrom: grouped(numbered, ({ slur }) => slur.first),
    slursTo: grouped(numbered, ({ slur }) => slur.last),
    divisions: divisionsOf(voice),
  };
}

const isJoined = (note: PlanNote): boolean => note.attack === 'hammer' || note.attack === 'pull' || note.attack === 'glide';

function grouped<T>(items: readonly T[], key: (item: T) => NoteId): ReadonlyMap<NoteId, readonly T[]> {
  const groups = new Map<NoteId, T[]>();
  for (const item of items) groups.set(key(item), [...(groups.get(key(item)) ?? []), item]);
  return groups;
}

/** Finer divisions than this are rounded: 2^8 * 3 * 5 * 7 a quarter holds any music. */
const finest = 26_880;

/** The least number of divisions in which all lengths and onsets of the voice are whole. */
function divisionsOf(voice: Voice): number {
  const times = [...voice.notes, ...voice.rests, ...voice.bars].flatMap(({ onset, duration }) => [onset, duration]);
  let divisions = 1;
  for (const time of times) {
    const { den } = mul(time, fraction(4, 1));
    divisions = lcm(divisions, den);
    if (divisions > finest) return finest;
  }
  return divisions;
}

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** A time in divisions. */
export const inDivisions = (part: Part, time: Fraction): number => Math.round((time.num * 4 * part.divisions) / time.den);
