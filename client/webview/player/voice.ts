// Puts planned sounds on an audio clock: plucked notes and clicks.
import type { Given } from './clock.ts';
import type { Sound } from './plan.ts';
import { recordedNote, type Sample } from './samples.ts';
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

/** On the context's clock. */
type Span = Pick<Given, 'time' | 'end'>;

/** How a sound comes and goes, in seconds. */
interface Shape {
  readonly swell: number;
  /** The least that it lasts before it fades. */
  readonly full: number;
  readonly fading: number;
}

export interface Instrument {
  /** Sounds from `time` to `end` on the context's clock. */
  play(given: Given): void;
  /** Lets a sound that was given end at another time, unless it already dies away. */
  hold(sound: Sound, end: number): void;
  /** Silences what is to come and what rings. */
  stop(): void;
}

/** What makes a sound, and its way to the gain that shapes it. */
export interface Tone {
  readonly source: AudioScheduledSourceNode;
  readonly output: AudioNode;
  start(time: number): void;
}

const plain = (source: AudioScheduledSourceNode): Tone => ({ source, output: source, start: (time) => source.start(time) });

interface Ringing {
  readonly source: AudioScheduledSourceNode;
  readonly gain: AudioParam;
  readonly loudness: number;
  /** The earliest that it may begin to fade, on the clock, and how long that takes. */
  readonly full: number;
  readonly fading: number;
  /** When it begins to fade. */
  fade: number;
}

/** Notes of a bass are played from `samples`, or from a calculated string where there are none; all others from strings. */
export function makeInstrument(context: BaseAudioContext, samples: readonly Sample[]): Instrument {
  const strings = new Map<number, AudioBuffer>();
  const sounding = new Set<AudioScheduledSourceNode>();
  const ringing = new Map<Sound, Ringing>();

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

  function start(sound: Sound, { source, output, start: begin }: Tone, gain: GainNode, time: number): void {
    output.connect(gain).connect(context.destination);
    sounding.add(source);
    source.onended = () => {
      sounding.delete(source);
      ringing.delete(sound);
    };
    begin(time);
  }

  /** From nothing to its loudness in `swell`, and back in `fading` before its end. */
  function shaped(sound: Exclude<Sound, { kind: 'click' }>, tone: Tone, { time, end }: Span, shape: Shape): void {
    const gain = context.createGain();
    gain.gain.setValueAtTime(0, time);
    gain.gain.linearRampToValueAtTime(sound.loudness, time + shape.swell);
    start(sound, tone, gain, time);
    const { loudness } = sound;
    ringing.set(sound, { source: tone.source, gain: gain.gain, loudness, full: time + shape.full, fading: shape.fading, fade: end });
    endAt(ringing.get(sound)!, end);
  }

  function endAt(sound: Ringing, end: number): void {
    sound.fade = Math.max(sound.full, end - sound.fading);
    sound.gain.setValueAtTime(sound.loudness, sound.fade);
    sound.gain.linearRampToValueAtTime(0, Math.max(sound.fade + 0.001, end));
    sound.source.stop(Math.max(sound.fade + 0.001, end) + 0.01);
  }

  function calculated(midi: number): Tone {
    const source = context.createBufferSource();
    source.buffer = stringOf(midi);
    return plain(source);
  }

  /** A plucked note, or one without its pluck; a chord's tone is one of those. */
  function plucked(sound: Exclude<Sound, { kind: 'click' }>, span: Span): void {
    const attack = sound.kind === 'note' ? sound.attack : 'slur';
    const recorded = sound.kind === 'note' && sound.part === 'bass' && samples.length > 0;
    const tone = recorded ? recordedNote(context, samples, sound, span.time) : calculated(sound.midi);
    shaped(sound, tone, span, { swell: attack === 'slur' ? slurStart : pluckStart, full: slurStart + 0.001, fading: damping });
  }

  function drone(sound: Extract<Sound, { kind: 'backing' }>, span: Span): void {
    const source = context.createOscillator();
    source.type = 'triangle';
    source.frequency.value = frequencyOf(sound.midi);
    const swell = Math.min(droneSwell, (span.end - span.time) / 2);
    shaped(sound, plain(source), span, { swell, full: swell, fading: swell });
  }

  function click(sound: Extract<Sound, { kind: 'click' }>, time: number): void {
    const source = context.createOscillator();
    source.frequency.value = clickPitch[sound.accent];
    const gain = context.createGain();
    gain.gain.setValueAtTime(0.25, time);
    gain.gain.exponentialRampToValueAtTime(0.001, time + clickLength);
    start(sound, plain(source), gain, time);
    source.stop(time + clickLength);
  }

  return {
    play({ sound, time, end }) {
      switch (sound.kind) {
        case 'note':
          return plucked(sound, { time, end });
        case 'backing':
          return sound.voice === 'chord' ? plucked(sound, { time, end }) : drone(sound, { time, end });
        case 'click':
          return click(sound, time);
      }
    },
    hold(sound, end) {
      const held = ringing.get(sound);
      if (held === undefined || held.fade <= context.currentTime) return;
      held.gain.cancelScheduledValues(held.fade);
      endAt(held, end);
    },
    stop() {
      for (const source of sounding) source.stop();
      sounding.clear();
      ringing.clear();
    },
  };
}
