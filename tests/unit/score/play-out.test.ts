// A tune played out: repeats, endings, parts, ties over joins, tempos.
import { describe, expect, it } from 'vitest';
import { toText } from '../../../server/src/score/fraction.ts';
import { playOut } from '../../../server/src/score/index.ts';
import { scoreOf, scoreOfMusic } from '../../support/trees.ts';

const LETTERS = ['C', '', 'D', '', 'E', 'F', '', 'G', '', 'A', '', 'B'];
const heard = (music: string): string =>
  playOut(scoreOfMusic(music))
    .voices[0]!.events.map(({ midi }) => LETTERS[midi % 12])
    .join('');
const heardInParts = (order: string, body: string): string =>
  playOut(scoreOf(`X:1\nT:t\nM:4/4\nL:1/8\nP:${order}\nK:C\n${body}\n`))
    .voices[0]!.events.map(({ midi }) => LETTERS[midi % 12])
    .join('');

describe('repeats', () => {
  it.each([
    ['|:C8:|D8', 'CCD'],
    ['C8:|D8', 'CCD'],
    ['C8||D8:|E8', 'CDDE'],
    ['C8:|D8:|', 'CCDD'],
    ['|:C8::D8:|', 'CCDD'],
    ['|::C8::|', 'CCC'],
    ['|:C8|1D8:|2E8|]', 'CDCE'],
    ['|:C8|1,2D8:|3E8|]', 'CDCDCE'],
    ['|:C8|1-2D8:|3E8|]', 'CDCDCE'],
    ['|:C8|1D8:|2E8:|3F8|]', 'CDCECF'],
    ['|:C8|[1D8:|E8|]', 'CDCE'],
    ['|:C8|1D8:|2E8||F8:|', 'CDCEFF'],
    ['G4|:C8:|', 'GCC'],
    ['|:C8|D8', 'CD'],
  ])('%s sounds %s', (music, notes) => expect(heard(music)).toBe(notes));
});

describe('parts', () => {
  const body = 'P:A\nC8|\nP:B\nD8|\n';
  it.each([
    ['ABA', 'CDC'],
    ['A3.B', 'CCCD'],
    ['((AB)2A)2', 'CDCDCCDCDC'],
    ['AXB', 'CD'],
  ])('%s sounds %s', (order, notes) => expect(heardInParts(order, body)).toBe(notes));

  it('play their own repeats each time', () => expect(heardInParts('AA', 'P:A\n|:C8:|\n')).toBe('CCCC'));

  it('choose endings by the time they come, where endings ask for more times than repeats give', () => {
    expect(heardInParts('A3', 'P:A\nC8|[1,3 D8:|[2 E8:|]\n')).toBe('CDCECD');
  });

  it('are cut off before they fill the memory', () => {
    expect(heardInParts('((((A99)99)99)99)99', 'P:A\nC8|\n').length).toBe(20_000);
  });
});

describe('ties', () => {
  it('last over a bar, and sound again where a repeat breaks them off', () => {
    const events = playOut(scoreOfMusic('|:C8-|1C8:|2C8|]')).voices[0]!.events;
    expect(events.map(({ onset, duration }) => `${toText(onset)}+${toText(duration)}`)).toEqual(['0+2', '2+1', '3+1']);
  });
});

describe('one written note', () => {
  it('gives an event each time it sounds', () => {
    expect(playOut(scoreOfMusic('|:[CE]8:|')).voices[0]!.events.map(({ note, head }) => `${note}.${head}`)).toEqual([
      '0.0',
      '0.1',
      '0.0',
      '0.1',
    ]);
  });
});

describe('tempos', () => {
  it('stand where their text is reached', () => {
    const { tempos } = playOut(scoreOf('X:1\nT:t\nM:4/4\nL:1/8\nQ:1/4=100\nK:C\n|:C8|[Q:1/2=60]D8:|\n'));
    expect(tempos.map(({ onset, beat, bpm }) => `${toText(onset)} ${toText(beat)}=${bpm}`)).toEqual([
      '0 1/4=100',
      '1 1/2=60',
      '2 1/4=100',
      '3 1/2=60',
    ]);
  });
});
