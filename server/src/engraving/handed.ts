// What one system hands on to the next inside the library, as plain data: open slurs and ties, endings, sizes, fonts.
import type { LibController, LibCrossing, LibElement, LibEngraver, LibTune } from './library.ts';

const fontNames = ['gchordfont', 'tripletfont', 'annotationfont', 'vocalfont'] as const;

/** State between two systems. Equal JSON means equal drawing of what follows. */
export interface Handed {
  readonly slurs: Readonly<Record<string, Readonly<Record<string, LibCrossing>>>>;
  readonly ties: Readonly<Record<string, readonly LibCrossing[]>>;
  readonly endings: Readonly<Record<string, boolean>>;
  readonly scale: Readonly<Record<string, number>>;
  readonly color: Readonly<Record<string, string>>;
  readonly style: unknown;
  readonly hasVocals: boolean;
  readonly measureLength: number;
  readonly fonts: Readonly<Record<string, unknown>>;
}

const mapValues = <A, B>(record: Readonly<Record<string, A>>, to: (value: A) => B): Record<string, B> =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, to(value)]));

const crossing = ({ force, stemDir, dotted }: LibCrossing): LibCrossing => ({ force, stemDir, dotted });

function withoutEmpty<T extends object>(record: Record<string, T>): Record<string, T> {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => Object.keys(value).length > 0));
}

const fontsOf = (formatting: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(fontNames.map((name) => [name, formatting[name]]));

/** The state before the first system of a tune. */
export function firstHanded(tune: LibTune): Handed {
  const meter = tune.getMeterFraction!();
  return {
    slurs: {},
    ties: {},
    endings: {},
    scale: {},
    color: {},
    style: null,
    hasVocals: false,
    measureLength: meter.num / meter.den,
    fonts: fontsOf(tune.formatting),
  };
}

/** Reads the state after a system is drawn. */
export function readHanded(controller: LibController, formatting: Readonly<Record<string, unknown>>): Handed {
  const engraver = controller.engraver!;
  return {
    slurs: withoutEmpty(mapValues(engraver.slursbyvoice, (slurs) => mapValues(slurs, crossing))),
    ties: withoutEmpty(mapValues(engraver.tiesbyvoice, (ties) => ties.map(crossing))),
    endings: mapValues(engraver.endingsbyvoice, Boolean),
    scale: { ...engraver.scaleByVoice },
    color: { ...engraver.colorByVoice },
    style: engraver.style ?? null,
    hasVocals: engraver.hasVocals,
    measureLength: engraver.measureLength,
    fonts: fontsOf(formatting),
  };
}

/** Puts the state into a fresh engraver, before it draws. */
export function writeHanded(engraver: LibEngraver, handed: Handed): void {
  engraver.slursbyvoice = mapValues(handed.slurs, (slurs) => ({ ...slurs }));
  engraver.tiesbyvoice = mapValues(handed.ties, (ties) => [...ties]);
  engraver.endingsbyvoice = { ...handed.endings };
  engraver.scaleByVoice = { ...handed.scale };
  engraver.colorByVoice = { ...handed.color };
  engraver.style = handed.style ?? undefined;
  engraver.hasVocals = handed.hasVocals;
  engraver.measureLength = handed.measureLength;
}

const hasDynamics = (element: LibElement): boolean => (element.decoration?.length ?? 0) > 0;
const hasWords = (element: LibElement): boolean => element.lyric !== undefined;

/** As text, without offsets: spaces and comments move them and change nothing that is seen. */
const withoutPlaces = (tree: unknown): string =>
  JSON.stringify(tree, (key, value) => (key === 'startChar' || key === 'endChar' ? undefined : value));

/**
 * Text that is equal for two systems exactly if the library draws them alike: the tree without offsets, what comes in,
 * and the place in the tune. Whether words were seen before matters only to a system with dynamics.
 */
export function systemKey(tune: LibTune, line: number, handed: Handed, place: SystemPlace): string {
  const staffs = tune.lines[line]!.staff!;
  const elements = staffs.flatMap((staff) => staff.voices.flat());
  const incoming = { ...handed, hasVocals: elements.some(hasDynamics) && handed.hasVocals };
  const tree = withoutPlaces(tune.lines[line]);
  return `${tree}\n${JSON.stringify(incoming)}\n${place.first ? withoutPlaces(tune.metaText.tempo ?? null) : '-'} ${place.last}`;
}

/** Whether a system is the first or the last line of its tune: the first carries the tempo, the last is not stretched. */
export interface SystemPlace {
  readonly first: boolean;
  readonly last: boolean;
}

/** The state after a kept system: as drawn, words seen before carried on. */
export function handedOn(
  kept: Handed,
  incoming: Handed,
  staffs: readonly { readonly voices: readonly (readonly LibElement[])[] }[],
): Handed {
  const own = staffs.some((staff) => staff.voices.some((voice) => voice.some(hasWords)));
  const hasVocals = incoming.hasVocals || (own && kept.hasVocals);
  return hasVocals === kept.hasVocals ? kept : { ...kept, hasVocals };
}
