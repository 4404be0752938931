// A line over each bass part: its range, how often the hand shifts, how fast it can go, its hardest bar.
import type { FingeredPart, PlanStage } from '../arrangement/types.ts';
import { barNumber } from '../score/bar-numbers.ts';
import { isFarBeyond } from '../score/far-beyond.ts';
import type { Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { midiName } from './shared/pitch.ts';

export interface Lens extends Span {
  readonly text: string;
  /** Goes to this stretch when chosen; null where there is nowhere to go. */
  readonly goTo: Span | null;
}

/** There is one question: the whole tune. */
export const lens: Feature<'plan', null, readonly Lens[]> = {
  needs: 'plan',
  answer: (stage) => stage.fingered.flatMap((fingered) => lensOf(stage, fingered) ?? []),
};

function lensOf(stage: PlanStage, fingered: FingeredPart): Lens | null {
  const { plan } = fingered;
  const sounding = plan.notes.flatMap((note) => note.sounding);
  if (sounding.length === 0) return null;
  const hardest = hardestBar(stage, fingered);
  const words = [
    stage.fingered.length > 1 ? `voice ${plan.voice.replace(/[^\w -]/g, '')}` : '',
    `sounds ${midiName(Math.min(...sounding))} to ${midiName(Math.max(...sounding))}`,
    `key ${stage.score.keyText.split(/\s/)[0] ?? ''}`,
    plan.playable
      ? `${plan.shifts} ${plan.shifts === 1 ? 'shift' : 'shifts'}`
      : `${plan.windows.length} ${plan.windows.length === 1 ? 'passage' : 'passages'} no hand plays`,
    tempoWords(fingered),
    hardest === null ? '' : `hardest: bar ${hardest.number}`,
  ];
  const { from, to } = titleSpan(stage);
  return { from, to, text: words.filter((word) => word !== '' && word !== 'key ').join(' · '), goTo: hardest?.span ?? null };
}

function tempoWords({ plan }: FingeredPart): string {
  const { beat, comfortable, limit } = plan.topTempo;
  if (limit === null || isFarBeyond(comfortable, plan.tempo?.bpm ?? null)) return '';
  return `comfortable to ${beat}=${Math.floor(comfortable ?? limit)}, limit ${Math.floor(limit)}`;
}

/** The bar with an unplayable passage, else the one in which the hand shifts most (the first of equals). */
function hardestBar(stage: PlanStage, { plan }: FingeredPart): { readonly number: number; readonly span: Span } | null {
  const voice = stage.score.voices.find((one) => one.id === plan.voice);
  if (voice === undefined) return null;
  const bars = new Map(voice.notes.map((note) => [note.id, note.bar]));
  const barOf = (id: number): number => bars.get(id) ?? 0;
  const weights = new Map<number, number>();
  const weigh = (bar: number, by: number): unknown => weights.set(bar, (weights.get(bar) ?? 0) + by);
  for (const window of plan.windows) weigh(barOf(window.notes[0] ?? 0), plan.notes.length);
  for (const note of plan.notes) if (note.shift) weigh(barOf(note.id), 1);
  const [index] = [...weights].reduce<readonly [number, number]>((most, one) => (one[1] > most[1] ? one : most), [-1, 0]);
  const bar = voice.bars[index];
  return bar === undefined ? null : { number: barNumber(voice, bar.index), span: { from: bar.from, to: bar.to } };
}

/** The title's line, or the tune's first. */
function titleSpan({ tree }: PlanStage): Span {
  const title = tree.lines.find(({ line }) => line.kind === 'field' && line.field.letter === 'T') ?? tree.lines[0];
  return title === undefined ? { from: 0, to: 0 } : { from: title.at, to: title.at + title.line.text.trimEnd().length };
}
