// The first pages of a booklet: the tunes in their order with how long they take, and an index by key of what each asks of the player.
import type { FrontItem } from './page/front.ts';
import type { FrontOf } from './page/make.ts';
import { clockText, secondsOf } from './practice.ts';
import type { HandoutTune } from './types.ts';
import { keyName } from './words.ts';

export interface BookletTune {
  readonly tune: HandoutTune;
  /** How often it is played through; 0 for a version printed beside the one that is played. */
  readonly times: number;
}

export interface Booklet {
  readonly title: string;
  readonly date: string;
  readonly tunes: readonly BookletTune[];
}

/** The index as a front page. */
export const bookletFront =
  ({ title, date, tunes }: Booklet): FrontOf =>
  (pageOf) => ({ title, under: date, items: [...orderItems(tunes, pageOf), ...keyItems(tunes, pageOf)] });

const orderHeads = ['', 'Tune', 'Page', 'Key', 'Times', 'Lasts'] as const;

function orderItems(tunes: readonly BookletTune[], pageOf: (tune: number) => number): readonly FrontItem[] {
  const rows = tunes.map(({ tune, times }, i) => [
    `${i + 1}`,
    tune.score.title,
    `${pageOf(i)}`,
    keyName(tune.score),
    times === 0 ? '' : `${times}`,
    times === 0 ? '' : clockText(secondsOf(tune) * times),
  ]);
  const total = clockText(tunes.reduce((sum, { tune, times }) => sum + secondsOf(tune) * times, 0));
  return [
    { kind: 'heading', text: 'In order' },
    { kind: 'table', widths: [0.06, 0.5, 0.1, 0.14, 0.1, 0.1], rows: [orderHeads, ...rows, ['', 'Together', '', '', '', total]] },
  ];
}

const keyHeads = ['Key', 'Tune', 'Page', 'Highest stop', 'Thumb', 'Shifts a bar', 'Limit tempo'] as const;

function keyItems(tunes: readonly BookletTune[], pageOf: (tune: number) => number): readonly FrontItem[] {
  const rows = tunes.map(({ tune }, i) => ({ key: keyName(tune.score), i, row: factsOf(tune, `${pageOf(i)}`) }));
  const sorted = rows.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.i - b.i)).map(({ row }) => row);
  return [
    { kind: 'heading', text: 'By key' },
    { kind: 'table', widths: [0.1, 0.37, 0.08, 0.12, 0.09, 0.12, 0.12], rows: [keyHeads, ...sorted] },
  ];
}

/** What a tune asks of the player; a dash where it has no fingering. */
function factsOf(tune: HandoutTune, page: string): readonly string[] {
  const { score, plans } = tune;
  const plan = plans[0];
  if (plan === undefined) return [keyName(score), score.title, page, '–', '–', '–', '–'];
  const places = plan.notes.flatMap((note) => note.places);
  const bars = score.voices.find((voice) => voice.id === plan.voice)?.bars.length ?? 1;
  const { limit } = plan.topTempo;
  return [
    keyName(score),
    score.title,
    page,
    `${places.reduce((most, place) => Math.max(most, place.stop), 0)}`,
    places.some((place) => place.finger === 'T') ? 'yes' : 'no',
    (plan.shifts / Math.max(1, bars)).toFixed(1),
    limit === null ? 'none' : `${Math.floor(limit)}`,
  ];
}
