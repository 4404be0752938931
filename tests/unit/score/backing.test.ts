// Chords and a drone to play against: strokes by meter against bars worked out by hand, tones against the kinds of MusicXML.
import { describe, expect, it } from 'vitest';
import { chordEvents, droneEvents } from '../../../server/src/score/backing.ts';
import { readChordName } from '../../../server/src/score/chord-name.ts';
import { toText } from '../../../server/src/score/fraction.ts';
import { playOut } from '../../../server/src/score/index.ts';
import { scoreOf } from '../../support/trees.ts';

const tune = (meter: string, music: string, key = 'C') => scoreOf(`X:1\nT:t\nM:${meter}\nL:1/8\nK:${key}\n${music}\n`);

/** `onset+duration:notes` of each stroke. */
const strokes = (meter: string, music: string): string[] => {
  const score = tune(meter, music);
  return chordEvents(score, playOut(score)).map(({ onset, duration, midi }) => `${toText(onset)}+${toText(duration)}:${midi.join(' ')}`);
};
const drones = (music: string, key: string, drone: 'root' | 'fifth'): string[] => {
  const score = tune('4/4', music, key);
  return droneEvents(score, playOut(score), drone).map(
    ({ onset, duration, midi }) => `${toText(onset)}+${toText(duration)}:${midi.join(' ')}`,
  );
};

const [c, g, f] = ['55 60 64', '55 59 62', '57 60 65'];

describe('chordEvents', () => {
  it.each([
    ['4/4', '"C"C8|', [`1/4+1/4:${c}`, `3/4+1/4:${c}`]],
    ['C', '"C"C8|', [`1/4+1/4:${c}`, `3/4+1/4:${c}`]],
    ['2/4', '"C"C4|', [`1/8+1/8:${c}`, `3/8+1/8:${c}`]],
    ['C|', '"C"C8|', [`1/4+1/4:${c}`, `3/4+1/4:${c}`]],
    ['2/2', '"C"C8|', [`1/4+1/4:${c}`, `3/4+1/4:${c}`]],
    ['3/4', '"C"C6|', [`1/4+1/4:${c}`, `1/2+1/4:${c}`]],
    ['6/8', '"C"C6|', [`3/8+3/8:${c}`]],
    ['9/8', '"C"C9|', [`3/8+3/8:${c}`, `3/4+3/8:${c}`]],
    ['12/8', '"C"C12|', [`3/8+3/8:${c}`, `9/8+3/8:${c}`]],
    ['none', '"C"C8|', []],
  ])('strikes where the meter has it: %s', (meter, music, wanted) => {
    expect(strokes(meter, music)).toEqual(wanted);
  });

  it('changes where the symbol stands, and goes on with it into bars without one', () => {
    expect(strokes('4/4', '"C"C4"G7"G4|G8|')).toEqual([
      `1/4+1/4:${c}`,
      '3/4+1/4:55 59 62 65',
      '5/4+1/4:55 59 62 65',
      '7/4+1/4:55 59 62 65',
    ]);
  });

  it('plays repeats and endings as they are played out', () => {
    expect(strokes('2/4', '|:"C"C4|1"G"G4:|2"F"F4|]').map((text) => text.split(':')[1])).toEqual([c, c, g, g, c, c, f, f]);
  });

  it('counts a pickup back from its end', () => {
    expect(strokes('4/4', '"G"G2|"C"C8|')).toEqual([`0+1/4:${g}`, `1/2+1/4:${c}`, `1+1/4:${c}`]);
  });

  it('is still under N.C., before the first symbol and at words that name no chord', () => {
    expect(strokes('4/4', 'C8|"C"C8|"N.C."C8|')).toEqual([`5/4+1/4:${c}`, `7/4+1/4:${c}`]);
    expect(strokes('4/4', '"Fine"C8|')).toEqual([]);
    expect(strokes('4/4', '')).toEqual([]);
  });
});

describe('droneEvents', () => {
  it('holds the root, or root and fifth, as long as the key', () => {
    expect(drones('|:D8|D8:|', 'Dmix', 'root')).toEqual(['0+4:50']);
    expect(drones('A8|[K:E]E8|', 'Am', 'fifth')).toEqual(['0+1:57 64', '1+1:52 59']);
  });

  it('is still where no key is named', () => {
    expect(drones('D8|', 'none', 'root')).toEqual([]);
  });
});

describe('readChordName', () => {
  // Degrees of the kinds as the documentation of MusicXML 4.0's kind-value has them (from memory).
  it.each([
    ['C', [0, 4, 7]],
    ['Cm', [0, 3, 7]],
    ['C+', [0, 4, 8]],
    ['Cdim', [0, 3, 6]],
    ['C7', [0, 4, 7, 10]],
    ['Cmaj7', [0, 4, 7, 11]],
    ['Cm7', [0, 3, 7, 10]],
    ['Cdim7', [0, 3, 6, 9]],
    ['Cm7b5', [0, 3, 6, 10]],
    ['Cø', [0, 3, 6, 10]],
    ['Cm(maj7)', [0, 3, 7, 11]],
    ['C6', [0, 4, 7, 9]],
    ['Cm6', [0, 3, 7, 9]],
    ['Csus2', [0, 2, 7]],
    ['Csus4', [0, 5, 7]],
    ['C7sus4', [0, 5, 7, 10]],
    ['C5', [0, 7]],
    ['C9', [0, 4, 7, 10]],
    ['Cadd9', [0, 4, 7]],
  ])('knows the tones of %s', (name, tones) => {
    expect(readChordName(name)).toMatchObject({ root: { letter: 'C', alter: 0 }, tones });
  });
});
