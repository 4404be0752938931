// Arguments of a command: what is read, and what a wrong one is told.
import { describe, expect, it } from 'vitest';
import { inputOptions, nearest, readArguments } from '../../../server/src/cli/arguments.ts';

const options = {
  ...inputOptions,
  played: { kind: 'flag' },
  out: { kind: 'text', what: 'DIR' },
  by: { kind: 'number', least: -24, most: 24 },
  speed: { kind: 'number', least: 0.2, most: 2, step: 0.01 },
  paper: { kind: 'choice', choices: ['a4', 'letter'] },
  format: { kind: 'choices', choices: ['pdf', 'svg', 'text'] },
} as const;

const wrong = (...args: string[]): string => {
  const read = readArguments(args, options);
  return read.kind === 'wrong' ? read.message : 'read';
};

describe('readArguments', () => {
  it('reads options before, between and after files', () => {
    const read = readArguments(['a.abc', '--by', '-2', '--format=pdf,svg,pdf', '--played', '-', '--', '--odd.abc'], options);
    expect(read).toEqual({
      kind: 'read',
      files: ['a.abc', '-', '--odd.abc'],
      values: { 'stdin-name': null, played: true, out: null, by: -2, speed: null, paper: null, format: ['pdf', 'svg'] },
    });
  });

  it('names the nearest option for a slip', () => {
    expect(wrong('--fromat', 'pdf')).toBe('Unknown option --fromat. Did you mean --format?');
    expect(wrong('--constructor')).toMatch(/^Unknown option --constructor\. Options: --stdin-name/);
  });

  it('says what a value may be', () => {
    expect(wrong('--out')).toBe('--out needs a value: DIR.');
    expect(wrong('--out=')).toBe('--out needs a value: DIR.');
    expect(wrong('--played=yes')).toBe('--played takes no value; leave out "=yes".');
    expect(wrong('--by', '1.5')).toBe('--by cannot be "1.5"; it takes a whole number from -24 to 24.');
    expect(wrong('--speed', '3')).toBe('--speed cannot be "3"; it takes a number from 0.2 to 2.');
    expect(wrong('--by', '')).toMatch(/^--by cannot be ""/);
    expect(wrong('--paper', 'a3')).toBe('--paper does not know "a3"; it takes one of a4, letter.');
    expect(wrong('--format', 'pdf,doc')).toBe('--format does not know "doc"; it takes one or more of pdf, svg, text, joined by commas.');
  });
});

describe('nearest', () => {
  it('finds slips and lets strangers be', () => {
    expect(nearest('finget', ['finger', 'format'])).toBe('finger');
    expect(nearest('zebra', ['finger', 'format'])).toBeNull();
    expect(nearest('in', ['ink'])).toBe('ink');
  });
});
