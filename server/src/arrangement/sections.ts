// The parts of a tune (A, B, kick-off ...) and the place of each bar in them, by label or by repeats and double bars.
import { compare } from '../score/fraction.ts';
import type { Bar, Voice } from '../score/types.ts';

/** One part of a tune: its label (`A`, `B` ... counted where none is written) and its bars. */
export interface Section {
  readonly label: string;
  /** Indices into the voice's bars, in order. */
  readonly bars: readonly number[];
}

/** Splits a voice into its parts. Bars before the first written label are a part without a label. */
export function sectionsOf(voice: Voice): readonly Section[] {
  const labels = new Map(voice.parts.map((part) => [part.bar, part.label]));
  const sections: { label: string; bars: number[] }[] = [];
  let counted = 0;
  for (const bar of voice.bars) {
    const label = labels.get(bar.index);
    const starts = voice.parts.length > 0 ? label !== undefined : startsSection(bar, voice.bars[bar.index - 1]);
    if (starts || sections.length === 0)
      sections.push({ label: label ?? (voice.parts.length > 0 ? '' : countedLabel(counted++)), bars: [] });
    sections.at(-1)!.bars.push(bar.index);
  }
  return sections;
}

const countedLabel = (n: number): string => String.fromCharCode(65 + (n % 26)).repeat(1 + Math.floor(n / 26));

/** Whether an unlabelled part starts with this bar: at a repeat's start, after its end, after a double bar; not at a further ending. */
function startsSection(bar: Bar, before: Bar | undefined): boolean {
  if (before === undefined || bar.startRepeats > 0) return true;
  if (bar.ending.length > 0) return false;
  return before.endRepeats > 0 || before.sectionEnd;
}

/** Whether a bar is a pickup: short, and the first of the tune or of a part. */
export function isPickup(voice: Voice, bar: Bar): boolean {
  if (!isShort(bar)) return false;
  if (bar.index === 0 || voice.parts.some((part) => part.bar === bar.index)) return true;
  return voice.parts.length === 0 && startsSection(bar, voice.bars[bar.index - 1]);
}

/** Whether a bar is shorter than its meter asks for, as a pickup is. */
export const isShort = (bar: Bar): boolean => bar.nominal !== null && compare(bar.duration, bar.nominal) < 0;

/** A bar's place: part, ending, and number in them; a pickup is number 0. */
export interface BarPlace {
  readonly section: number;
  readonly label: string;
  readonly ending: string;
  readonly number: number;
}

/** The place of every bar of a voice; bars of an ending are counted on from the part's other bars of that pass. */
export function barPlaces(voice: Voice): readonly BarPlace[] {
  const places: BarPlace[] = [];
  sectionsOf(voice).forEach((section, index) => {
    const counts = new Map<string, number>();
    const first = voice.bars[section.bars[0]!]!;
    const pickup = section.bars.length > 1 && isShort(first);
    for (const at of section.bars) {
      const ending = voice.bars[at]!.ending.join(',');
      const body = counts.get('') ?? (pickup ? 0 : 1);
      const number = ending === '' ? body : (counts.get(ending) ?? body);
      counts.set(ending, number + 1);
      places[at] = { section: index, label: section.label, ending, number };
    }
  });
  return places;
}
