// The row of controls over the sheet: play, tempo, loop, count-in, clicks, guide.
import type { Plan, Scene } from '../../messages.ts';
import { type Practice, usualPractice } from '../../practice.ts';
import { html, text } from '../dom.ts';
import { type Clicks, type PlayOptions, type PlayPlan, planPlaying } from './plan.ts';
import type { Player } from './player.ts';
import type { Practised } from './practised.ts';
import { beatsAMinute, sharePlus, stretchOf } from './time.ts';

export interface Controls {
  readonly element: HTMLElement;
  toggle(): void;
  stop(): void;
  /** To be called when the playing has ended. */
  ended(): void;
  /** Shows the tune's own figures; a playing tune goes on as it was. */
  show(scene: Scene, plans: readonly Plan[]): void;
}

const button = (label: string, act: () => void): HTMLButtonElement => {
  const element = html('button', { type: 'button' }, text(label));
  element.addEventListener('click', act);
  return element;
};

function select<T extends string>(label: string, options: readonly (readonly [T, string])[], changed: () => void): HTMLSelectElement {
  const element = html('select', { 'aria-label': label }, ...options.map(([value, words]) => html('option', { value }, text(words))));
  element.addEventListener('change', changed);
  return element;
}

const number = (label: string, changed: () => void): HTMLInputElement => {
  const element = html('input', { type: 'number', min: 1, 'aria-label': label, size: 4 });
  element.addEventListener('change', changed);
  return element;
};

const checkbox = (label: string, changed: () => void): { readonly box: HTMLInputElement; readonly element: HTMLElement } => {
  const box = html('input', { type: 'checkbox' });
  box.addEventListener('change', changed);
  return { box, element: html('label', {}, box, text(label)) };
};

/** What stays on one line in a narrow panel. */
const group = (...parts: readonly Node[]): HTMLElement => html('span', { class: 'group' }, ...parts);

/** Beats a minute that a step adds: small enough to stay relaxed (common practice). */
const step = 3;

/** `practised` is told how each file is practised, and asked when it is shown again. */
export function makeControls(player: () => Player, practised: Practised): Controls {
  let scene: Scene | null = null;
  let plans: readonly Plan[] = [];
  let share = 1;

  const play = button('Play', toggle);
  const slower = button(`−${step}`, () => stepBy(-step));
  const faster = button(`+${step}`, () => stepBy(step));
  slower.setAttribute('aria-label', `${step} beats a minute slower`);
  faster.setAttribute('aria-label', `${step} beats a minute faster`);
  const bpm = number('Beats a minute', () => {
    if (scene !== null) share = Math.max(1, Number(bpm.value) || 1) / beatsAMinute(scene.playback);
    changed();
  });
  /** What the beats are. */
  const beat = html('span', { id: 'beat-unit' });
  bpm.setAttribute('aria-describedby', 'beat-unit');
  const from = number('First bar', changed);
  const to = number('Last bar', changed);
  const loop = checkbox('Loop', changed);
  const countIn = checkbox('Count-in', changed);
  const clicks = select<Clicks>(
    'Click',
    [
      ['none', 'No click'],
      ['all', 'Click on all beats'],
      ['1-3', 'Click on 1 and 3'],
      ['2-4', 'Click on 2 and 4'],
    ],
    changed,
  );
  const guide = checkbox('Octave guide', changed);
  const chords = checkbox('Chords', changed);
  const drone = select<PlayOptions['drone']>(
    'Drone',
    [
      ['none', 'No drone'],
      ['root', 'Drone: root'],
      ['fifth', 'Drone: root and fifth'],
    ],
    changed,
  );
  const advice = html(
    'p',
    { class: 'advice' },
    text('Step up only what stays easy. Stop on pain, numbness or tingling, and rest; a teacher or clinician decides.'),
  );
  const tempo = group(slower, bpm, faster, beat);
  const bars = group(html('span', {}, text('Bars')), from, html('span', {}, text('to')), to);
  const row = html('div', { class: 'row' }, play, tempo, bars);
  row.append(loop.element, countIn.element, clicks, guide.element, chords.element, drone);
  const element = html('section', { class: 'controls', 'aria-label': 'Playing' }, row, advice);

  const practice = (): Practice => ({
    share,
    clicks: clicks.value as Practice['clicks'],
    countIn: countIn.box.checked ? 'bar' : 'none',
    repeat: loop.box.checked ? 'loop' : 'once',
    guide: guide.box.checked ? 'octave' : 'none',
    chords: chords.box.checked ? 'soft' : 'none',
    drone: drone.value as Practice['drone'],
  });

  function setTo(wanted: Practice): void {
    share = wanted.share;
    clicks.value = wanted.clicks;
    countIn.box.checked = wanted.countIn === 'bar';
    loop.box.checked = wanted.repeat === 'loop';
    guide.box.checked = wanted.guide === 'octave';
    chords.box.checked = wanted.chords === 'soft';
    drone.value = wanted.drone;
  }

  function planNow(): PlayPlan | null {
    if (scene === null || scene.playback.events.length === 0) return null;
    const { firstBar } = scene.playback;
    const bars = [from, to].map((input) => Number.parseInt(input.value, 10));
    const chosen = bars.every(Number.isFinite)
      ? stretchOf(scene.playback, bars[0]! - firstBar, Math.max(bars[0]!, bars[1]!) - firstBar)
      : null;
    const stretch = chosen ?? { from: 0, to: scene.playback.end };
    return planPlaying(scene.playback, plans, { ...practice(), stretch, bassVoices: scene.bassVoices });
  }

  function showTempo(): void {
    if (scene !== null) bpm.value = String(Math.round(beatsAMinute(scene.playback) * share));
    advice.hidden = share <= 1;
  }

  function changed(): void {
    showTempo();
    if (scene !== null) practised.keep(scene.uri, practice());
    const plan = player().playing ? planNow() : null;
    if (plan !== null) player().change(plan, practice().repeat);
  }

  function stepBy(by: number): void {
    if (scene === null) return;
    share = sharePlus(scene.playback, share, by);
    changed();
  }

  function toggle(): void {
    if (player().playing) {
      player().stop();
      return;
    }
    const plan = planNow();
    if (plan === null) return;
    player().start(plan, practice().repeat);
    play.textContent = 'Stop';
  }

  setTo(usualPractice);
  showTempo();
  return {
    element,
    toggle,
    stop: () => player().stop(),
    ended: () => {
      play.textContent = 'Play';
    },
    show(next, nextPlans) {
      const otherFile = scene?.uri !== next.uri;
      if (otherFile) setTo(practised.of(next.uri));
      if (otherFile || scene?.tune !== next.tune) {
        player().stop();
        from.value = '';
        to.value = '';
      }
      scene = next;
      plans = nextPlans;
      const has = (kind: 'chord' | 'drone'): boolean => next.playback.backing.some((event) => event.kind === kind);
      chords.box.disabled = !has('chord');
      chords.element.lastChild!.textContent = has('chord') ? 'Chords' : 'Chords: no symbols to play';
      drone.disabled = !has('drone');
      drone.options[0]!.textContent = has('drone') ? 'No drone' : 'Drone: no key named';
      for (const bar of [from, to]) bar.min = String(next.playback.firstBar);
      beat.textContent = `${next.playback.beatName}s`;
      showTempo();
    },
  };
}
