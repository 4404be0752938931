// What is heard, sample by sample: the page's own player rendered on an offline clock in a browser.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type PlayOptions, planPlaying } from '../../../client/webview/player/plan.ts';
import { ahead, interval } from '../../../client/webview/player/run.ts';
import { sampleRoots } from '../../../client/webview/player/samples.ts';
import { secondsAt } from '../../../client/webview/player/time.ts';
import { browserPath, bundled, openPage, startBrowser } from '../../support/page/browser.ts';
import { plainly } from '../../support/page/playing.ts';
import { sceneOf } from '../../support/page/scenes.ts';
import type { Heard, Session } from '../../support/page/sound.ts';

const rate = 44_100;
const samples = sampleRoots.map((root) => ({
  root,
  base64: readFileSync(join(import.meta.dirname, `../../../media/bass/${root}.ogg`)).toString('base64'),
}));
const tune = 'X:1\nM:4/4\nL:1/4\nQ:1/4=180\nP:ABA\nK:G clef=bass\nP:A\n|:G,B,DG,|1 (A,B,)G,2:|2 G,4||\nP:B\nD,E,F,G,|]\n';

/** A tempo chosen while it plays: when, in seconds, and as which share of the tune's own. */
interface Change {
  readonly at: number;
  readonly share: number;
}

describe.skipIf(browserPath === null)('sound', () => {
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    browser = await startBrowser();
    page = await openPage(browser, { script: await bundled('tests/support/page/sound.ts') });
  });
  afterAll(() => browser?.close());

  const { playback, plans } = sceneOf(tune, 0);
  const options = plainly(playback);
  const heard = (session: Partial<Session>): Promise<Heard> => {
    const whole: Session = {
      playback,
      plans: plans!,
      options,
      repeat: 'once',
      lengths: 'short',
      changes: [],
      seconds: 10,
      samples: [],
      ...session,
    };
    return page.evaluate((asked) => (window as unknown as { heardIn(session: Session): Promise<Heard> }).heardIn(asked), whole);
  };
  /** A note's first sample is nothing, for it swells from there: the next one is heard. */
  const expectOnsets = ({ onsets }: Heard, seconds: readonly number[]): void => {
    expect(onsets).toHaveLength(seconds.length);
    onsets.forEach(({ at }, i) => {
      expect(at - seconds[i]! * rate).toBeGreaterThanOrEqual(-1e-6);
      expect(at - seconds[i]! * rate).toBeLessThanOrEqual(2);
    });
  };

  describe('of a tune', () => {
    const lasting = (share: number): number => secondsAt(playback, playback.end) / share + 0.5;

    it.each([0.5, 0.83, 1])(
      'begins each note within one sample of its time, repeats and parts played out, at %f of the tempo',
      async (share) => {
        const wanted = playback.events.map((event) => secondsAt(playback, event.onset) / share);
        expectOnsets(await heard({ options: { ...options, share }, seconds: lasting(share) }), wanted);
      },
    );

    it('counts as many plucks as the plan has attacks; hammered notes are quieter', async () => {
      const { onsets } = await heard({ seconds: lasting(1) });
      const attacks = planPlaying(playback, plans!, options).sounds.flatMap((sound) => (sound.kind === 'note' ? [sound.attack] : []));
      const loudest = (attack: 'pluck' | 'slur') => onsets.filter((_, i) => attacks[i] === attack).map(({ peak }) => peak);
      expect(loudest('slur').length).toBe(attacks.filter((attack) => attack === 'slur').length);
      expect(loudest('slur').length).toBeGreaterThan(0);
      expect(Math.max(...loudest('slur'))).toBeLessThan(Math.min(...loudest('pluck')));
    });
  });

  describe('of graces', () => {
    // 0.08 s each; by the plan the notes of a slur after its first are hammered.
    const graced = sceneOf('X:1\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\n({A,}B,){A,}B, ({A,B,}C) G,|]\n', 0);

    it('plucks those that the plan plucks, on the beat, and their notes after them', async () => {
      const asked = { playback: graced.playback, plans: graced.plans!, seconds: 2.5 };
      const { onsets } = await heard({ ...asked, options: { ...options, stretch: { from: 0, to: 1 } } });
      const beats = [0, 0.08, 0.5, 0.58, 1, 1.08, 1.16, 1.5];
      expect(onsets.map(({ at }) => at / rate)).toEqual(beats.map((beat) => expect.closeTo(beat, 3)));
      const attacks = graced.plans![0]!.notes.map(({ attack }) => attack);
      expect(attacks).toEqual(['pluck', 'hammer', 'pluck', 'pluck', 'pluck', 'hammer', 'hammer', 'pluck']);
      const peaks = (wanted: (attack: string) => boolean): number[] => onsets.filter((_, i) => wanted(attacks[i]!)).map(({ peak }) => peak);
      expect(Math.max(...peaks((attack) => attack !== 'pluck'))).toBeLessThan(Math.min(...peaks((attack) => attack === 'pluck')));
    });
  });

  describe('of the recorded bass', () => {
    const lasting = (share: number): number => secondsAt(playback, playback.end) / share + 0.5;
    const note = (midi: number): Partial<Session> => {
      const event = { note: 0, voice: '1', onset: 0, duration: 2, midi, bar: 0 };
      return {
        playback: { ...playback, tempos: [{ onset: 0, beat: 1 / 4, bpm: 100 }], events: [event], end: 2 },
        plans: [],
        lengths: 'full',
        seconds: 4,
        samples,
      };
    };

    it.each([0.5, 0.83, 1])('begins each note within one sample of its time, at %f of the tempo', async (share) => {
      const wanted = playback.events.map((event) => secondsAt(playback, event.onset) / share);
      expectOnsets(await heard({ options: { ...options, share }, seconds: lasting(share), samples }), wanted);
    });

    it('is recorded: another sound than the calculated string', async () => {
      const peaks = async (given: Session['samples']) => (await heard({ seconds: 2, samples: given })).onsets.map(({ peak }) => peak);
      expect(await peaks(samples)).not.toEqual(await peaks([]));
    });

    it('plays hammered notes quieter', async () => {
      const { onsets } = await heard({ lengths: 'short', seconds: lasting(1), samples });
      const attacks = planPlaying(playback, plans!, options).sounds.flatMap((sound) => (sound.kind === 'note' ? [sound.attack] : []));
      const loudest = (attack: 'pluck' | 'slur') => onsets.filter((_, i) => attacks[i] === attack).map(({ peak }) => peak);
      expect(Math.max(...loudest('slur'))).toBeLessThan(Math.max(...loudest('pluck')));
    });

    // From C1 of an extended low string to G4, the top of the board, by equal temperament on A4 = 440 Hz.
    it.each([24, 28, 31, 33, 36, 38, 40, 43, 45, 48, 50, 52, 55, 58, 62, 65, 67])('is in tune to six cents: MIDI %i', async (midi) => {
      const wanted = 440 * 2 ** ((midi - 69) / 12);
      const whole = {
        plans: [],
        options: { ...options, stretch: { from: 0, to: 2 } },
        repeat: 'once',
        changes: [],
        ...note(midi),
      } as Session;
      const found = await page.evaluate(
        ([asked, expected]) => (window as unknown as { pitchOf(session: Session, hz: number): Promise<number> }).pitchOf(asked, expected),
        [whole, wanted] as const,
      );
      expect(Math.abs(1200 * Math.log2(found / wanted))).toBeLessThan(6);
    });

    it.each([28, 43, 60])('rings through a long note: MIDI %i', async (midi) => {
      const { onsets, silence } = await heard({ ...note(midi), options: { ...options, stretch: { from: 0, to: 2 } } });
      expect(onsets).toHaveLength(1);
      expect(silence).toBeLessThan(0.002);
    });

    it('gives way to the calculated string where a sample cannot be decoded', async () => {
      const broken = samples.map((each, i) => (i === 3 ? { ...each, base64: btoa('no sound at all') } : each));
      const { onsets } = await heard({ seconds: 2, samples: broken });
      expect(onsets).toEqual((await heard({ seconds: 2 })).onsets);
    });
  });

  describe('when the tempo changes', () => {
    // Quarters at 180: a third of a second each; the first two bars are the loop.
    const stretch = { from: 0, to: 2 };
    const third = 1 / 3;
    const loop = { ...options, stretch };
    /** Onsets of a loop's quarters while `share` changes: what had been given at each change, and the next one, stay in the old tempo. */
    function quarters(changes: readonly Change[], seconds: number): number[] {
      const onsets = [0];
      for (let share = 1, next = third, left = [...changes]; next < seconds; ) {
        onsets.push(next);
        const fed = (at: number): number => Math.floor(at / interval + 1e-9) * interval + ahead;
        for (; left.length > 0 && next >= fed(left[0]!.at); left = left.slice(1)) share = left[0]!.share;
        next += third / share;
      }
      return onsets;
    }
    const plain = sceneOf('X:1\nM:4/4\nL:1/4\nQ:1/4=180\nK:G clef=bass\nG,B,DG,|A,B,G,D|]\n', 0);
    const long = sceneOf('X:1\nM:4/4\nL:1/4\nQ:1/4=180\nK:G clef=bass\nG,4|D4|]\n', 0);
    const session = { playback: plain.playback, plans: plain.plans!, options: loop, repeat: 'loop', seconds: 6 } as const;
    const changed = (changes: readonly Change[], always: PlayOptions = loop): Session['changes'] =>
      changes.map(({ at, share }) => ({ at, options: { ...always, share } }));
    const [slower, faster] = [0.5, 1.6];

    const moments: readonly (readonly [string, readonly Change[]])[] = [
      ['between two notes', [{ at: 1.12, share: slower }]],
      ['between two notes, to faster', [{ at: 1.12, share: faster }]],
      ['on a note', [{ at: 1.335, share: faster }]],
      ['just before the loop turns back', [{ at: 2.62, share: slower }]],
      ['as the loop turns back', [{ at: 2.67, share: faster }]],
      ['in the second round', [{ at: 4.33, share: slower }]],
      ['three times within one note', [1.02, 1.04, 1.06].map((at, i) => ({ at, share: 1 + (i + 1) / 60 }))],
      ['again and again', [0.62, 1.32, 2.72, 3.18, 4.81].map((at, i) => ({ at, share: i % 2 === 0 ? faster : slower }))],
    ];

    it.each(moments)('keeps each interval to one sample, with no note missing or twice: %s', async (_, changes) => {
      expectOnsets(await heard({ ...session, changes: changed(changes) }), quarters(changes, session.seconds));
    });

    it.each(moments)('lets each note ring until the next: %s', async (_, changes) => {
      const { silence } = await heard({ ...session, lengths: 'full', changes: changed(changes) });
      expect(silence).toBeLessThan(0.002);
    });

    it('does all this on the recorded bass too', async () => {
      const changes = moments.at(-1)![1];
      const asked = { ...session, changes: changed(changes), samples };
      expectOnsets(await heard(asked), quarters(changes, session.seconds));
      expect((await heard({ ...asked, lengths: 'full' })).silence).toBeLessThan(0.002);
    });

    it('keeps the count-in to one sample, and the music begins when it is over', async () => {
      const counted: PlayOptions = { ...loop, countIn: 'bar' };
      const changes = [{ at: 0.76, share: slower }];
      const counting = await heard({ ...session, options: counted, changes: changed(changes, counted) });
      // Four clicks and the first notes: the tempo is another from the fourth click on.
      const wanted = [0, 1, 2, 3, 5, 7, 9, 11, 13, 15, 17].map((thirds) => thirds / 3);
      expectOnsets(counting, wanted);
    });

    it('holds a long note under clicks to its new end, and no shorter', async () => {
      const clicked: PlayOptions = { ...loop, clicks: 'all' };
      const asked = { ...session, playback: long.playback, plans: long.plans!, options: clicked, lengths: 'full' } as const;
      const { silence } = await heard({ ...asked, changes: changed([{ at: 0.41, share: slower }], clicked) });
      expect(silence).toBeLessThan(0.002);
    });

    it('does not make up for clicks that were off when their time came', async () => {
      const asked = { ...session, playback: long.playback, plans: long.plans! };
      const late = await heard({ ...asked, changes: [{ at: 0.78, options: { ...loop, clicks: 'all' } }], seconds: 3 });
      expectOnsets(
        late,
        [0, 3, 4, 5, 6, 7, 8].map((thirds) => thirds / 3),
      );
    });
  });
});
