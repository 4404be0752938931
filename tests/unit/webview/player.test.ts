// Planning of playing with plain numbers: onsets, count-in, clicks, loops, a tempo that changes between two sounds.
import { describe, expect, it } from 'vitest';
import { makeFeed } from '../../../client/webview/player/clock.ts';
import { type PlayOptions, planPlaying, soundsOfRound } from '../../../client/webview/player/plan.ts';
import { frequencyOf, pluckedString } from '../../../client/webview/player/string.ts';
import { secondsAt, sharePlus, stretchOf } from '../../../client/webview/player/time.ts';
import { plainly } from '../../support/page/playing.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const tune = 'X:1\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\nD,|:G,B,DG,|1 (E,F,)G,2:|2 G,4|]\n';
const { playback, plans } = sceneOf(tune, 0);
const options = plainly(playback);
const plan = (change: Partial<PlayOptions> = {}) => planPlaying(playback, plans!, { ...options, ...change });
const onsets = (change: Partial<PlayOptions> = {}) =>
  plan(change)
    .sounds.filter((sound) => sound.kind === 'note')
    .map((sound) => sound.at);
const clicks = (change: Partial<PlayOptions>) =>
  plan(change)
    .sounds.filter((sound) => sound.kind === 'click')
    .map((sound) => sound.at);

describe('planning', () => {
  it('puts every sounding where the tempo says, repeats and endings played', () => {
    expect(onsets()).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4.5, 5, 5.5, 6, 6.5]);
    expect(onsets({ share: 0.5 })).toEqual(onsets().map((at) => at * 2));
  });

  it('gives an octave below the written note', () => {
    const first = plan().sounds[0]!;
    expect(first.kind === 'note' && first.midi).toBe(38);
  });

  it('plays a slurred note without a pluck, and quieter', () => {
    const notes = plan().sounds.filter((sound) => sound.kind === 'note');
    const slurred = notes.filter((note) => note.attack === 'slur');
    expect(slurred.map((note) => note.at)).toEqual([3]);
    expect(slurred[0]!.loudness).toBeLessThan(notes[0]!.loudness);
  });

  it('counts in full bars less the pickup', () => {
    expect(clicks({ countIn: 'bar' })).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3]);
    expect(plan({ countIn: 'bar' }).countIn).toBe(3.5);
    expect(clicks({ countIn: 'bar', stretch: { from: 0.25, to: 1.25 } })).toEqual([0, 0.5, 1, 1.5]);
  });

  it('clicks on all beats, on 1 and 3, or on 2 and 4', () => {
    const stretch = { from: 0.25, to: 2.25 };
    expect(clicks({ clicks: 'all', stretch })).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
    expect(clicks({ clicks: '1-3', stretch })).toEqual([0, 1, 2, 3]);
    expect(clicks({ clicks: '2-4', stretch })).toEqual([0.5, 1.5, 2.5, 3.5]);
  });

  it('finds the stretch of written bars at their first sounding', () => {
    expect(stretchOf(playback, 1, 1)).toEqual({ from: 0.25, to: 1.25 });
    expect(stretchOf(playback, 1, 2)).toEqual({ from: 0.25, to: 2.25 });
    expect(stretchOf(playback, 90, 91)).toBeNull();
  });

  it('adds a doubled octave only where it is asked for', () => {
    expect(plan({ guide: 'octave' }).sounds.length).toBe(plan().sounds.length * 2);
  });

  it('follows tempo changes and steps by beats a minute', () => {
    const changing = {
      ...playback,
      tempos: [
        { onset: 0, beat: 0.25, bpm: 60 },
        { onset: 1, beat: 0.25, bpm: 120 },
      ],
    };
    expect(secondsAt(changing, 1)).toBe(4);
    expect(secondsAt(changing, 2)).toBe(6);
    expect(sharePlus(playback, 1, 3) * 120).toBeCloseTo(123, 9);
  });
});

describe('feeding', () => {
  it('gives every sound once, round after round, without a gap', () => {
    const looped = plan({ countIn: 'bar', stretch: { from: 0.25, to: 1.25 } });
    const feed = makeFeed(looped, 10, 'loop');
    const given = Array.from({ length: 60 }, (_, i) => feed.due(10 + i * 0.2)).flat();
    const notes = given.filter(({ sound }) => sound.kind === 'note').map(({ time }) => time);
    expect(notes.length).toBeGreaterThan(15);
    for (let i = 1; i < notes.length; i++) expect(notes[i]! - notes[i - 1]!).toBeCloseTo(0.5, 9);
    expect(soundsOfRound(looped, 1).every((sound) => sound.kind === 'note')).toBe(true);
  });

  it('keeps the place in the music when clicks, chords or a drone come and go', () => {
    const feed = makeFeed(plan(), 0, 'loop');
    const before = feed.due(2.25).filter(({ sound }) => sound.kind === 'note');
    feed.change(plan({ clicks: 'all', drone: 'fifth' }), 'loop');
    const between = feed.due(3.25).filter(({ sound }) => sound.kind === 'note');
    feed.change(plan(), 'loop');
    const after = feed.due(7).filter(({ sound }) => sound.kind === 'note');
    expect([...before, ...between, ...after].map(({ time }) => time)).toEqual(onsets());
  });

  const times = (given: readonly { readonly time: number }[]): number[] => given.map(({ time }) => time);

  it('changes tempo at the next sound: it comes as it would have, what follows at the new pace', () => {
    const feed = makeFeed(plan(), 0, 'once');
    const before = times(feed.due(1.1));
    feed.change(plan({ share: 0.5 }), 'once');
    const after = times(feed.due(100));
    expect(before).toEqual([0, 0.5, 1]);
    expect(after.slice(0, 3)).toEqual([1.5, 2.5, 3.5]);
    expect(before.length + after.length).toBe(plan().sounds.length);
  });

  it('never falls behind the clock when it gets faster within a long note', () => {
    const feed = makeFeed(plan({ stretch: { from: 1.25, to: 3.25 } }), 0, 'loop');
    feed.due(1.4);
    feed.change(plan({ stretch: { from: 1.25, to: 3.25 }, share: 4 }), 'loop');
    expect(times(feed.due(2)).every((time) => time >= 1.4)).toBe(true);
  });

  it('tells which sounds end at another time now', () => {
    const whole = { stretch: { from: 0, to: 1.25 }, drone: 'root' } as const;
    const feed = makeFeed(plan(whole), 0, 'loop');
    feed.due(1.1);
    const changed = feed.change(plan({ ...whole, share: 0.5 }), 'loop');
    // The drone of the first full bar; the notes end by the next onset.
    expect(changed.map(({ sound, end }) => [sound.kind, end])).toEqual([['backing', 3.5]]);
  });

  it('goes round again, or stops after this round, when the loop is chosen or left while it plays', () => {
    const bar = plan({ stretch: { from: 0.25, to: 1.25 } });
    const feed = makeFeed(bar, 0, 'once');
    const given = times(feed.due(1.9));
    expect(feed.end).toBe(2);
    feed.change(bar, 'loop');
    expect(feed.end).toBe(Number.POSITIVE_INFINITY);
    given.push(...times(feed.due(2.6)));
    feed.change(bar, 'once');
    given.push(...times(feed.due(9)));
    expect(given).toEqual([0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
    expect(feed.end).toBe(4);
  });

  it('begins another stretch when the next sound is due, where its own place is not in it', () => {
    const feed = makeFeed(plan({ stretch: { from: 0.25, to: 1.25 } }), 0, 'loop');
    feed.due(0.6);
    feed.change(plan({ stretch: { from: 2.25, to: 3.25 } }), 'loop');
    const after = feed.due(2.9);
    expect(times(after)).toEqual([1, 1.5, 2, 2.5]);
    expect(after[0]!.sound.place).toBe(2.25);
  });
});

describe('the string', () => {
  /** Crossings upwards through zero, the first and the last of them placed between samples. */
  function measured(midi: number): number {
    const rate = 12_000;
    const samples = pluckedString(midi, 2, rate);
    const crossings: number[] = [];
    const frequency = frequencyOf(midi);
    // A sharp low-pass around the fundamental: correlation with one turn of a sine, stepped by a sample.
    const length = Math.round((rate / frequency) * 4);
    let last = 0;
    for (let at = rate / 2; at < rate; at++) {
      let sum = 0;
      for (let i = 0; i < length; i++) sum += samples[at + i]! * Math.sin((2 * Math.PI * frequency * i) / rate);
      if (last < 0 && sum >= 0) crossings.push(at - sum / (sum - last));
      last = sum;
    }
    return ((crossings.length - 1) * rate) / (crossings.at(-1)! - crossings[0]!);
  }

  it.each([43, 55, 67])('sounds MIDI %i within a cent', (midi) => {
    expect(Math.abs(1200 * Math.log2(measured(midi) / frequencyOf(midi)))).toBeLessThan(1);
  });
});

describe('chords and drone', () => {
  const backed = sceneOf('X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:G clef=bass\n"G"G,4|"D7"D,4|]\n', 0);
  const backing = (change: Partial<PlayOptions>) => {
    const made = planPlaying(backed.playback, backed.plans!, { ...options, stretch: { from: 0, to: 2 }, ...change });
    return made.sounds.flatMap((sound) =>
      sound.kind === 'backing' ? [`${sound.at}+${made.at(sound.until) - sound.at}:${sound.midi}`] : [],
    );
  };

  it('sounds neither unless asked', () => {
    expect(backing({})).toEqual([]);
  });

  it('strikes chords on 2 and 4, at the pace and in the stretch asked', () => {
    expect(backing({ chords: 'soft', stretch: { from: 0, to: 1 } })).toEqual(['1+1:55', '1+1:59', '1+1:62', '3+1:55', '3+1:59', '3+1:62']);
    expect(backing({ chords: 'soft', share: 0.5, stretch: { from: 1, to: 1.5 } }).map((text) => text.split(':')[0])).toEqual(
      Array(4).fill('2+2'),
    );
  });

  it('takes the drone up at each bar, and where the stretch begins', () => {
    expect(backing({ drone: 'root' })).toEqual(['0+4:55', '4+4:55']);
    expect(backing({ drone: 'fifth', stretch: { from: 0.5, to: 1 } })).toEqual(['0+2:55', '0+2:62']);
  });
});
