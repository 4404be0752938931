// Clicks and count-in of the sheet: by meter, and the same as those of a practice track.
import { describe, expect, it } from 'vitest';
import { type Clicks, planPlaying } from '../../../client/webview/player/plan.ts';
import { beatsAMinute } from '../../../client/webview/player/time.ts';
import { type PracticeOptions, secondsAt, timelineOf } from '../../../server/src/handout/sound/timeline.ts';
import { handoutTunes } from '../../support/handout.ts';
import { sceneOf } from '../../support/page/scenes.ts';

const tunes = {
  'common time': 'M:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\nG,B,DG,|A,B,G,D|]',
  'common time with a pickup': 'M:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\nD|G,B,DG,|A,B,G,|]',
  'cut time': 'M:C|\nL:1/4\nQ:1/2=100\nK:G clef=bass\nG,B,DG,|A,B,G,D|]',
  'cut time with its tempo in quarters': 'M:C|\nL:1/4\nQ:1/4=200\nK:G clef=bass\nD|G,B,DG,|A,B,G,|]',
  'two four': 'M:2/4\nL:1/4\nQ:1/4=100\nK:G clef=bass\nG,B,|DG,|]',
  'three four': 'M:3/4\nL:1/4\nQ:1/4=150\nK:G clef=bass\nD|G,B,D|A,B,|]',
  'six eight': 'M:6/8\nL:1/8\nQ:3/8=120\nK:G clef=bass\nD|G,3B,3|A,3G,2|]',
  'slow six eight': 'M:6/8\nL:1/8\nQ:1/8=120\nK:G clef=bass\nG,3B,3|A,3G,3|]',
  'nine eight': 'M:9/8\nL:1/8\nQ:3/8=120\nK:G clef=bass\nG,3B,3D3|A,3G,3D3|]',
  'twelve eight': 'M:12/8\nL:1/8\nQ:3/8=120\nK:G clef=bass\nG,3B,3D3A,3|A,3G,3D3G,3|]',
  'a change of meter': 'M:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\nG,B,DG,|[M:3/4]A,B,G,|[M:C|]G,4|]',
};
const text = (name: keyof typeof tunes): string => `X:1\nT:t\n${tunes[name]}\n`;
const rounded = (seconds: number): number => Math.round(seconds * 1e6) / 1e6;

const onSheet = (name: keyof typeof tunes, clicks: Clicks, countIn: 'none' | 'bar') => {
  const { playback, plans } = sceneOf(text(name), 0);
  const stretch = { from: 0, to: playback.end };
  const plan = planPlaying(playback, plans!, {
    ...{ share: 1, clicks, countIn, stretch, bassVoices: ['1'], guide: 'none', chords: 'none', drone: 'none' },
  });
  return plan.sounds.flatMap((sound) => (sound.kind === 'click' ? [[rounded(sound.at), sound.accent === 'first']] : []));
};
const onTrack = (name: keyof typeof tunes, click: PracticeOptions['click'], countIn: number) => {
  const timeline = timelineOf(handoutTunes(text(name))[0]!, { speed: 1, countIn, click, register: 'as-sounding' });
  return timeline.clicks.map(({ onset, accent }) => [rounded(secondsAt(timeline, onset)), accent === 'strong']);
};
const times = (clicks: readonly unknown[][]): unknown[] => clicks.map(([at]) => at);

describe('clicks', () => {
  const names = Object.keys(tunes) as (keyof typeof tunes)[];

  it.each(names)('are those of a practice track: %s', (name) => {
    expect(onSheet(name, 'all', 'none')).toEqual(onTrack(name, 'all', 0));
    expect(onSheet(name, '1-3', 'none')).toEqual(onTrack(name, 'downbeats', 0));
    expect(onSheet(name, '2-4', 'none')).toEqual(onTrack(name, 'backbeats', 0));
  });

  it.each(names)('of a count-in too: a full bar, and one less the pickup where there is one: %s', (name) => {
    const bars = name.includes('pickup') || tunes[name].includes('\nD|') ? 2 : 1;
    expect(onSheet(name, 'none', 'bar')).toEqual(onTrack(name, 'off', bars));
  });

  it('of cut time fall on two half notes; on 2 and 4 they are where the chords are', () => {
    expect(times(onSheet('cut time', 'all', 'none'))).toEqual([0, 0.6, 1.2, 1.8]);
    expect(times(onSheet('cut time', '1-3', 'none'))).toEqual([0, 0.6, 1.2, 1.8]);
    expect(times(onSheet('cut time', '2-4', 'none'))).toEqual([0.3, 0.9, 1.5, 2.1]);
    expect(times(onSheet('cut time', 'none', 'bar'))).toEqual([0, 0.6]);
  });

  it('of compound meters fall on dotted quarters, of a slow 6/8 on eighths', () => {
    expect(times(onSheet('nine eight', 'all', 'none'))).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
    expect(times(onSheet('nine eight', '1-3', 'none'))).toEqual([0, 1, 1.5, 2.5]);
    expect(times(onSheet('twelve eight', '2-4', 'none'))).toEqual([0.5, 1.5, 2.5, 3.5]);
    expect(times(onSheet('slow six eight', 'all', 'none'))).toHaveLength(12);
    expect(times(onSheet('slow six eight', '2-4', 'none'))).toEqual([1.5, 4.5]);
    expect(times(onSheet('six eight', 'none', 'bar'))).toEqual([0, 0.5, 1, 1.5]);
  });
});

describe('the tempo told', () => {
  it.each([
    ['cut time', 100, 'half note'],
    ['cut time with its tempo in quarters', 100, 'half note'],
    ['six eight', 120, 'dotted quarter note'],
    ['slow six eight', 120, 'eighth note'],
    ['two four', 100, 'quarter note'],
  ] as const)('is in the beats that click: %s', (name, bpm, beat) => {
    const { playback } = sceneOf(text(name), 0);
    expect(beatsAMinute(playback)).toBeCloseTo(bpm, 9);
    expect(playback.beatName).toBe(beat);
  });
});
