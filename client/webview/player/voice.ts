// Puts planned sounds on an audio clock: plucked notes and clicks.
import type { Sound } from './plan.ts';
import { frequencyOf, pluckedString } from './string.ts';

/** Seconds of ring that are calculated for a string; what lasts longer has faded. */
const ring = 3;
/** Seconds in which a stopped note dies away. */
const damping = 0.06;
/** Softer start of a hammered note, in seconds: there is no pluck in it. */
const slurStart = 0.012;
const pluckStart = 0.002;
const clickPitch = { first: 1568, other: 1175 } as const;
const clickLength = 0.03;
/** Seconds in which a drone swells and fades. */
const droneSwell = 0.08;

export interface Instrument {
  /** Sounds at `time` on the context's clock. */
  play(sound: Sound, time: number): void;
  /** Silences what is to come and what rings. */
  stop(): void;
}

export function makeInstrument(context: BaseAudioContext): Instrument {
  const strings = new Map<number, AudioBuffer>();
  const sounding = new Set<AudioScheduledSourceNode>();

  function stringOf(midi: number): AudioBuffer {
    let buffer = strings.get(midi);
    if (buffer === undefined) {
      const samples = pluckedString(midi, ring, context.sampleRate);
      buffer = context.createBuffer(1, samples.length, context.sampleRate);
      buffer.getChannelData(0).set(samples);
      strings.set(midi, buffer);
    }
    return buffer;
  }

  function start(source: AudioScheduledSourceNode, gain: GainNode, time: number, end: number): void {
    source.connect(gain).connect(context.destination);
    sounding.add(source);
    source.onended = () => sounding.delete(source);
    source.start(time);
    source.stop(end);
  }

  function note(sound: Extract<Sound, { kind: 'note' }>, time: number): void {
    const source = context.createBufferSource();
    source.buffer = stringOf(sound.midi);
    const gain = context.createGain();
    const end = time + sound.seconds;
    gain.gain.setValueAtTime(0, time);
    gain.gain.linearRampToValueAtTime(sound.loudness, time + (sound.attack === 'slur' ? slurStart : pluckStart));
    gain.gain.setValueAtTime(sound.loudness, Math.max(time + slurStart, end - damping));
    gain.gain.linearRampToValueAtTime(0, Math.max(time + slurStart + 0.001, end));
    start(source, gain, time, end + 0.01);
  }

  /** A chord's tone is a string without its pluck; a drone's an oscillator. Both swell and fade, so that no end clicks. */
  function backing(sound: Extract<Sound, { kind: 'backing' }>, time: number): void {
    if (sound.voice === 'chord') {
      note({ ...sound, kind: 'note', attack: 'slur', note: -1 }, time);
      return;
    }
    const source = context.createOscillator();
    source.type = 'triangle';
    source.frequency.value = frequencyOf(sound.midi);
    const gain = context.createGain();
    const swell = Math.min(droneSwell, sound.seconds / 2);
    gain.gain.setValueAtTime(0, time);
    gain.gain.linearRampToValueAtTime(sound.loudness, time + swell);
    gain.gain.setValueAtTime(sound.loudness, time + sound.seconds - swell);
    gain.gain.linearRampToValueAtTime(0, time + sound.seconds);
    start(source, gain, time, time + sound.seconds + 0.01);
  }

  function click(sound: Extract<Sound, { kind: 'click' }>, time: number): void {
    const source = context.createOscillator();
    source.frequency.value = clickPitch[sound.accent];
    const gain = context.createGain();
    gain.gain.setValueAtTime(0.25, time);
    gain.gain.exponentialRampToValueAtTime(0.001, time + clickLength);
    start(source, gain, time, time + clickLength);
  }

  return {
    play(sound, time) {
      switch (sound.kind) {
        case 'note':
          return note(sound, time);
        case 'backing':
          return backing(sound, time);
        case 'click':
          return click(sound, time);
      }
    },
    stop() {
      for (const source of sounding) source.stop();
      sounding.clear();
    },
  };
}
