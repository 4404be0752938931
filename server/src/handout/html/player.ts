// The script and style of an HTML handout: a small player on the Web Audio clock, no network, no library.

/** A tune as the player takes it: times in seconds at the tempo asked, count-in included. */
export interface PlayerTune {
  /** Onset, duration, frequency in Hz, loudness 0 to 1, 1 for one that is plucked (0: hammered, pulled or glided into). */
  readonly notes: readonly (readonly [number, number, number, number, 0 | 1])[];
  /** Onset, duration, frequencies in Hz. */
  readonly chords: readonly (readonly [number, number, readonly number[]])[];
  /** Onset, duration, frequencies of root and fifth in Hz. */
  readonly drones: readonly (readonly [number, number, readonly number[]])[];
  /** Onset, 1 for a strong click, 1 for one that always sounds (the count-in). */
  readonly clicks: readonly (readonly [number, 0 | 1, 0 | 1])[];
  readonly end: number;
}

/**
 * Runs in the page. Notes are scheduled a second ahead; a change of speed holds from the next start.
 * Every player is a `form` with the index of its tune in `data-tune`.
 */
export const playerScript = `
const tunes = JSON.parse(document.getElementById('tunes').textContent);
let audio = null;
let playing = null;
function string(at, length, frequency, loudness, plucked) {
  const swell = plucked ? 0.006 : 0.012, bright = plucked ? 8 : 3;
  const tone = audio.createOscillator(), filter = audio.createBiquadFilter(), gain = audio.createGain();
  tone.type = 'triangle';
  tone.frequency.value = frequency;
  filter.frequency.setValueAtTime(frequency * bright, at);
  filter.frequency.exponentialRampToValueAtTime(frequency * 2, at + 0.4);
  gain.gain.setValueAtTime(0, at);
  gain.gain.linearRampToValueAtTime(loudness * 0.6, at + swell);
  gain.gain.setTargetAtTime(0, at + swell, 0.35);
  gain.gain.setTargetAtTime(0, at + length, 0.03);
  tone.connect(filter).connect(gain).connect(audio.destination);
  tone.start(at);
  tone.stop(at + length + 0.3);
}
function drone(at, length, frequency, loudness) {
  const tone = audio.createOscillator(), gain = audio.createGain(), swell = Math.min(0.08, length / 2);
  tone.type = 'triangle';
  tone.frequency.value = frequency;
  gain.gain.setValueAtTime(0, at);
  gain.gain.linearRampToValueAtTime(loudness, at + swell);
  gain.gain.setValueAtTime(loudness, at + length - swell);
  gain.gain.linearRampToValueAtTime(0, at + length);
  tone.connect(gain).connect(audio.destination);
  tone.start(at);
  tone.stop(at + length + 0.01);
}
function click(at, strong) {
  const tone = audio.createOscillator(), gain = audio.createGain();
  tone.frequency.value = strong ? 1760 : 1320;
  gain.gain.setValueAtTime(0.25, at);
  gain.gain.setTargetAtTime(0, at, 0.01);
  tone.connect(gain).connect(audio.destination);
  tone.start(at);
  tone.stop(at + 0.08);
}
function stop() {
  if (!playing) return;
  clearInterval(playing.timer);
  audio.suspend();
  playing.form.querySelector('button').textContent = 'Play';
  playing = null;
}
async function start(form) {
  stop();
  if (audio) await audio.close();
  audio = new AudioContext();
  const tune = tunes[form.dataset.tune];
  const speed = Number(form.elements.speed.value) / 100;
  const octave = form.elements.octave.checked ? 2 : 1;
  const held = Number(form.elements.drone?.value ?? 0);
  const events = [
    ...tune.notes.map(([at, length, frequency, loudness, plucked]) => [at, (t) => string(t, length / speed, frequency * octave, loudness, plucked)]),
    ...(form.elements.chords?.checked ? tune.chords : []).map(([at, length, tones]) => [at, (t) => tones.forEach((tone) => string(t, length / speed, tone, 0.3 / tones.length, 0))]),
    ...(held > 0 ? tune.drones : []).map(([at, length, tones]) => [at, (t) => tones.slice(0, held).forEach((tone) => drone(t, length / speed, tone, 0.1 / held))]),
    ...tune.clicks.filter(([, , always]) => always || form.elements.click.checked).map(([at, strong]) => [at, (t) => click(t, strong)]),
  ].sort((a, b) => a[0] - b[0]);
  const zero = audio.currentTime + 0.1;
  let next = 0;
  const feed = () => {
    while (next < events.length && zero + events[next][0] / speed < audio.currentTime + 1) {
      events[next][1](zero + events[next][0] / speed);
      next++;
    }
    if (audio.currentTime > zero + tune.end / speed + 1) stop();
  };
  form.querySelector('button').textContent = 'Stop';
  playing = { form, timer: setInterval(feed, 200) };
  feed();
}
for (const form of document.querySelectorAll('form')) {
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    if (playing && playing.form === form) stop();
    else start(form);
  });
  form.elements.speed.addEventListener('input', () => {
    form.querySelector('output').textContent = form.elements.speed.value + ' %';
  });
}
`;

export const pageStyle = `
body { margin: 0; background: #eee; font-family: "Bullfiddle Serif", serif; color: #000; }
main { max-width: 60rem; margin: 0 auto; padding: 1rem; }
svg { display: block; width: 100%; height: auto; background: #fff; margin: 0 0 1rem; box-shadow: 0 0 4px #aaa; }
form { display: flex; flex-wrap: wrap; gap: 1rem; align-items: center; margin: 0.5rem 0; }
button { font: inherit; min-width: 5rem; padding: 0.4rem 1rem; }
pre { overflow-x: auto; background: #fff; padding: 1rem; }
@media print { body { background: none; } main { max-width: none; padding: 0; } .screen { display: none; } svg { box-shadow: none; margin: 0; break-after: page; } @page { margin: 0; } }
`;
