// A book as one HTML file: the sheet, a player and the text tab of each tune; works offline, prints as the sheet.
import { add } from '../../score/fraction.ts';
import type { FontBook } from '../page/fonts.ts';
import type { Sheet } from '../page/sheet.ts';
import { svgPage } from '../page/svg.ts';
import { backingProblem, type PracticeOptions, secondsAt, type Timeline, timelineOf } from '../sound/timeline.ts';
import { textTab } from '../text-tab/text.ts';
import type { ExportOptions, HandoutTune } from '../types.ts';
import { caution } from '../words.ts';
import { escaped } from '../xml.ts';
import { htmlPage } from './page.ts';
import { type PlayerTune, pageStyle, playerScript } from './player.ts';

/** Text of a tune never becomes script, for it is escaped everywhere. */
export function htmlFile(
  sheet: Sheet,
  tunes: readonly HandoutTune[],
  fonts: FontBook,
  options: ExportOptions,
  practice: PracticeOptions,
): string {
  const data = JSON.stringify(tunes.map((tune) => playerTune(tune, practice))).replaceAll('<', '\\u003c');
  const main = [
    `<h1 class="screen">${escaped(sheet.title)}</h1>`,
    ...tunes.map((tune, i) => tuneSection(tune, i, options, practice)),
    ...sheet.pages.map((page) => svgPage(sheet, page, fonts, 'fonts-outside')),
  ];
  const scripts = [`<script type="application/json" id="tunes">${data}</script>`, `<script>${playerScript}</script>`];
  return htmlPage(sheet.title, { conduct: 'scripted', style: pageStyle, fonts }, main, scripts);
}

function tuneSection(tune: HandoutTune, index: number, options: ExportOptions, practice: PracticeOptions): string {
  const title = escaped(tune.score.title === '' ? 'Untitled' : tune.score.title);
  return [
    `<section class="screen" aria-label="${title}">`,
    `<h2>${title}</h2>`,
    `<form data-tune="${index}">`,
    `<button type="submit" aria-label="Play or stop ${title}">Play</button>`,
    '<label>Speed <input name="speed" type="range" min="40" max="120" step="5" value="100"> <output>100 %</output></label>',
    '<label><input name="click" type="checkbox"> Click</label>',
    '<label><input name="octave" type="checkbox"> Octave up</label>',
    ...backingControls(tune, practice),
    '</form>',
    `<p>${caution}</p>`,
    `<details><summary>Tab as text</summary><pre>${escaped(textTab(tune, options))}</pre></details>`,
    '</section>',
  ].join('\n');
}

/** What the tune can be played over; nothing where it has no chord symbols and names no key. The drone's value is its number of tones. */
function backingControls(tune: HandoutTune, { chords = 'off', drone = 'off' }: PracticeOptions): readonly string[] {
  const can = (wanted: Partial<PracticeOptions>): boolean => backingProblem(tune, { ...silent, ...wanted }) === null;
  const ticked = chords === 'soft' ? ' checked' : '';
  const option = (tones: number, words: string, kind: typeof drone): string =>
    `<option value="${tones}"${drone === kind ? ' selected' : ''}>${words}</option>`;
  const drones = [option(0, 'none', 'off'), option(1, 'root', 'root'), option(2, 'root and fifth', 'fifth')];
  return [
    ...(can({ chords: 'soft' }) ? [`<label><input name="chords" type="checkbox"${ticked}> Chords</label>`] : []),
    ...(can({ drone: 'fifth' }) ? [`<label>Drone <select name="drone">${drones.join('')}</select></label>`] : []),
  ];
}

const silent: PracticeOptions = { speed: 1, countIn: 0, click: 'off', register: 'as-sounding' };

/** Chords, drone and all beats are given; the player leaves out what is not asked for; clicks of the count-in always sound. */
function playerTune(tune: HandoutTune, practice: PracticeOptions): PlayerTune {
  const timeline = timelineOf(tune, { ...practice, click: 'all', register: 'as-sounding', chords: 'soft', drone: 'fifth' });
  const start = secondsAt(timeline, timeline.start);
  return {
    notes: timeline.notes.map((note) => {
      const from = secondsAt(timeline, note.onset);
      return [
        rounded(from),
        rounded(secondsAt(timeline, add(note.onset, note.duration)) - from),
        hertz(note.midi),
        note.loudness,
        note.attack === 'pluck' ? 1 : 0,
      ];
    }),
    chords: backingOf('chord', timeline),
    drones: backingOf('drone', timeline),
    clicks: timeline.clicks.map((click) => clickOf(click, timeline, start)),
    end: rounded(secondsAt(timeline, timeline.end)),
  };
}

function backingOf(kind: 'chord' | 'drone', timeline: Timeline): PlayerTune['chords'] {
  return timeline.backing.flatMap((event) => {
    if (event.kind !== kind) return [];
    const from = secondsAt(timeline, event.onset);
    return [[rounded(from), rounded(secondsAt(timeline, add(event.onset, event.duration)) - from), event.midi.map(hertz)] as const];
  });
}

function clickOf({ onset, accent }: Timeline['clicks'][number], timeline: Timeline, start: number): PlayerTune['clicks'][number] {
  const at = secondsAt(timeline, onset);
  return [rounded(at), accent === 'strong' ? 1 : 0, at < start - 1e-6 ? 1 : 0];
}

const hertz = (midi: number): number => rounded(440 * 2 ** ((midi - 69) / 12));

const rounded = (n: number): number => Math.round(n * 10_000) / 10_000;
