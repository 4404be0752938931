// Settings: in a tune's declarations, in bullfiddle.json, and in its JSON schema, which must say the same.
import { readFileSync } from 'node:fs';
import Ajv from 'ajv';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import {
  declarationKeys,
  defaultConfig,
  headerProblems,
  readConfigFile,
  readSetting,
  resolveConfig,
  settingKeys,
} from '../../../server/src/arrangement/index.ts';
import { headerFindings } from '../../../server/src/checks/index.ts';
import { bassPart, tune } from './support.ts';

const schema = JSON.parse(readFileSync(new URL('../../../media/bullfiddle.schema.json', import.meta.url), 'utf8'));

describe('bullfiddle.json', () => {
  const messages = (text: string) => readConfigFile(text).problems.map((problem) => problem.message);
  it('reads players, severities and the handout', () => {
    const { config, problems } = readConfigFile(
      '{"player":{"mensur":1080,"hand":"large"},"players":{"T.B.":{"hand":"100/112/110/132"}},"checks":{"note.fades":"off"},"handout":{"paper":"letter"}}',
    );
    expect(problems).toEqual([]);
    const resolved = resolveConfig(config, { player: config.players.get('T.B.')! });
    expect(resolved.setup).toMatchObject({ mensur: 1080, hand: { oneFour: { comfortable: 100, extended: 112 } } });
    expect(resolved.severities.get('note.fades')).toBe('off');
    expect(config.handout).toEqual({ paper: 'letter', density: 'changes', credit: '' });
  });
  it('lays later settings over earlier ones, over the defaults', () => {
    expect(resolveConfig().setup).toEqual(defaultConfig.setup);
    expect(resolveConfig({ player: { mensur: 1000, pluck: 6 } }, { player: { mensur: 1100 } }).setup).toMatchObject({
      mensur: 1100,
      pluck: 6,
    });
  });
  it.each([
    ['{"player":', /no valid JSON and is not used/],
    ['[]', /must hold an object/],
    ['{"plaier":{}}', /has no "plaier"/],
    ['{"player":{"mensur":90}}', /from 800 to 1150/],
    ['{"player":{"tuning":"EADGB"}}', /Known are standard/],
    ['{"player":{"hand":["small"]}}', /takes a number or a word/],
    ['{"checks":{"note.fades":"loud"}}', /one of error, warning, info, off/],
    ['{"handout":{"paper":"a3"}}', /one of a4, letter/],
  ])('%s: says what is wrong', (text, message) => {
    expect(messages(text)).toHaveLength(1);
    expect(messages(text)[0]).toMatch(message);
  });
  it('keeps what is right beside what is wrong', () =>
    expect(readConfigFile('{"player":{"mensur":90,"pluck":5},"handout":7}').config.player).toEqual({ pluck: 5 }));
});

describe('the schema', () => {
  const validate = new Ajv({ strict: false }).compile(schema);
  const player = schema.definitions.player.properties;
  it('knows the same settings, words and meanings', () => {
    expect(Object.keys(player).sort()).toEqual(settingKeys.map((setting) => setting.key).sort());
    for (const { key, meaning, values } of settingKeys) {
      expect(player[key].description).toBe(meaning);
      const words = player[key].enum ?? player[key].anyOf?.[0].enum;
      if (words !== undefined) expect(words).toEqual(values);
    }
  });
  it('has the same bounds', () => {
    for (const [key, { minimum, maximum }] of Object.entries<{ minimum?: number; maximum?: number }>(player)) {
      if (minimum === undefined || maximum === undefined) continue;
      for (const [value, kind] of [
        [minimum, 'ok'],
        [maximum, 'ok'],
        [minimum - 1, 'bad'],
        [maximum + 1, 'bad'],
      ] as const)
        expect([key, value, readSetting(key, String(value))?.kind]).toEqual([key, value, kind]);
    }
  });
  it('agrees with the reader on the demo and on mistakes', () => {
    const texts = [
      readFileSync(new URL('../../../media/demo/bullfiddle.json', import.meta.url), 'utf8'),
      '{"player":{"mensur":90}}',
      '{"handout":{"paper":"a3"}}',
      '{"x":1}',
    ];
    for (const text of texts) expect(validate(JSON.parse(text))).toBe(readConfigFile(text).problems.length === 0);
  });
});

describe('declarations', () => {
  const problems = (declared: string) => bassPart(tune(`I:bullfiddle ${declared} ; K:C clef=bass`, 'C,')).problems;
  it('nearest scope wins: file, tune, voice, inline before the first note', () => {
    const text = `I:bullfiddle mensur=1000 pluck=5\n\n${tune('I:bullfiddle mensur=1010 ; V:1 clef=bass ; I:bullfiddle mensur=1020 ; K:C', 'C,')}`;
    expect(bassPart(text).setup).toMatchObject({ mensur: 1020, pluck: 5 });
    expect(bassPart(tune('I:bullfiddle mensur=1010 ; K:C clef=bass', '[I:bullfiddle mensur=1030]C,')).setup.mensur).toBe(1030);
  });
  it('tells an unknown key with the valid ones, and mends a slip of one letter', () => {
    const [problem] = problems('mensure=1050');
    expect(problem).toMatchObject({ code: 'bullfiddle.unknown-key', fix: { title: 'Write mensur=' } });
    for (const { key } of declarationKeys) expect(problem!.message).toContain(key);
    expect(problems('colour=red')[0]!.fix).toBeNull();
  });
  it.each([
    ['part=drums', 'bass or melody'],
    ['version=middle', 'source, low, high or backing'],
    ['hand-stop=0', '1 or more'],
    ['key-shift=x', 'whole semitones'],
    ['tuning=guitar', 'Known are'],
    ['strings=E1', 'sounding pitches'],
    ['school=mine', 'Known are closed'],
    ['pluck=fast', 'takes a number'],
  ])('%s is told with what is allowed', (declared, words) => {
    expect(problems(declared).map((p) => p.code)).toEqual(['bullfiddle.bad-value']);
    expect(problems(declared)[0]!.message).toContain(words);
  });
  it('a setting in the middle of a part is told, not taken', () => {
    const part = bassPart(tune('K:C clef=bass', 'C,[I:bullfiddle mensur=1000]D,'));
    expect(part.setup.mensur).toBe(1050);
    expect(part.problems[0]!.message).toContain('holds for a whole part');
  });
  it('a slip in the file’s header is told once, for the file, where it stands', () => {
    const text = `I:bullfiddle colour=red mensur=90\n\n${tune('K:C clef=bass', 'C,')}`;
    const book = readBook(text);
    expect(headerProblems(book.header).map((p) => [p.code, text.slice(p.from, p.to)])).toEqual([
      ['bullfiddle.unknown-key', 'colour'],
      ['bullfiddle.bad-value', '90'],
    ]);
    expect(bassPart(text).problems).toEqual([]);
    expect(headerFindings(book).map((one) => one.code)).toEqual(['bullfiddle.unknown-key', 'bullfiddle.bad-value']);
  });
  it('gathers what is silenced', () =>
    expect(bassPart(tune('I:bullfiddle allow=note.fades,shift.too-far ; K:C clef=bass', 'C,')).allow).toEqual([
      'note.fades',
      'shift.too-far',
    ]));
});
