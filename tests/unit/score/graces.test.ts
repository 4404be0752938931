// Grace notes as they sound: on the beat, out of their own note, worked out by hand.
import { describe, expect, it } from 'vitest';
import { toNumber, toText } from '../../../server/src/score/fraction.ts';
import { withGraces } from '../../../server/src/score/graces.ts';
import { playOut } from '../../../server/src/score/index.ts';
import { scoreOf } from '../../support/trees.ts';

const letters = ['C', '', 'D', '', 'E', 'F', '', 'G', '', 'A', '', 'B'];

/** `letter onset+duration` in sixteenths; at 120 quarters a minute a grace of 80 ms lasts 0.64 of them. */
function heard(music: string, tempo = '1/4=120'): string[] {
  const score = scoreOf(`X:1\nT:t\nM:4/4\nL:1/16\nQ:${tempo}\nK:C\n${music}\n`);
  const at = (whole: Parameters<typeof toNumber>[0]): number => Math.round(toNumber(whole) * 16 * 100) / 100;
  return withGraces(score, playOut(score))[0]!.events.map(
    ({ midi, onset, duration }) => `${letters[midi % 12]} ${at(onset)}+${at(duration)}`,
  );
}

describe('withGraces', () => {
  it('begins a grace on the beat and shortens its note alone', () => {
    expect(heard('C4{D}E4F8|')).toEqual(['C 0+4', 'D 4+0.64', 'E 4.64+3.36', 'F 8+8']);
  });

  it('plays several one after the other', () => {
    expect(heard('{CDE}F4G12|')).toEqual(['C 0+0.64', 'D 0.64+0.64', 'E 1.28+0.64', 'F 1.92+2.08', 'G 4+12']);
  });

  it('takes no more than half of a note', () => {
    expect(heard('{C}DE15|')).toEqual(['C 0+0.5', 'D 0.5+0.5', 'E 1+15']);
    expect(heard('{CDEF}G2A14|')).toEqual(['C 0+0.25', 'D 0.25+0.25', 'E 0.5+0.25', 'F 0.75+0.25', 'G 1+1', 'A 2+14']);
  });

  it('lasts as long at every tempo, by the tempo that holds', () => {
    expect(heard('{C}D8[Q:1/4=60]{C}D8|')).toEqual(['C 0+0.64', 'D 0.64+7.36', 'C 8+0.32', 'D 8.32+7.68']);
    expect(heard('{C}D16|', '3/8=40')).toEqual(['C 0+0.32', 'D 0.32+15.68']);
  });

  it('is heard each time its note is, over a bar line too', () => {
    expect(
      heard('|:C16{D}|E16:|')
        .map((text) => text[0])
        .join(''),
    ).toBe('CDECDE');
  });

  it('delays all heads of a chord', () => {
    expect(heard('{D}[CE]16|')).toEqual(['D 0+0.64', 'C 0.64+15.36', 'E 0.64+15.36']);
  });

  it('stays silent without a note that begins: at the end, and within a tie', () => {
    expect(heard('C16|D16{E}|]')).toEqual(['C 0+16', 'D 16+16']);
    expect(heard('C8-{E}C8|')).toEqual(['C 0+16']);
  });

  it('leaves a tune without graces as it is', () => {
    const score = scoreOf('X:1\nT:t\nK:C\nCDEF|\n');
    const played = playOut(score);
    expect(withGraces(score, played)[0]!.events).toBe(played.voices[0]!.events);
    expect(toText(played.end)).toBe('1/2');
  });
});
