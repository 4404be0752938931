// Arranging low and high versions from a melody: octaves by the phrase, thinning, staleness and drift.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { driftOf, madeDigests, planStage, sourceTagEdits, statesOf, updateVersion } from '../../../server/src/arrangement/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { arranged, bodyOf, placesOf, planned, stageOf, tools, tune } from './support.ts';

const reel = tune('I:bullfiddle tune=reel version=source ; M:2/2 ; L:1/8 ; K:D', 'P:A\nD2F2 A2F2|G2E2 D4|\nP:B\nf2a2 b2a2|g2e2 d4|');

describe('10. whole phrases take one octave', () => {
  it('low: A sounds 24 below, B 36 below (24 would reach stop 16), without a shift', () => {
    const { text } = arranged(reel, { version: 'low', thin: 'none' });
    expect(bodyOf(text)).toBe('P:A\nD,2F,2 A,2F,2|G,2E,2 D,4|\nP:B\nF,2A,2 B,2A,2|G,2E,2 D,4|');
    const stage = planned(text);
    expect(stage.fingered[0]!.plan.shifts).toBe(0);
    expect(new Set(placesOf(stage).replace(/:./g, '').split(' '))).toEqual(new Set(['D0', 'D4', 'G2', 'G0', 'D2', 'G4']));
  });
  it('high: A sounds 12 below, B 24 below (12 would reach stop 28); one thumb frame at the octave plays all', () => {
    const { text } = arranged(reel, { version: 'high', thin: 'none' });
    expect(bodyOf(text)).toBe('P:A\nD2F2 A2F2|G2E2 D4|\nP:B\nF2A2 B2A2|G2E2 D4|');
    const stage = planned(text.replace(/(?<=[|\nA-G0-9 ])([DG])(?=[24])/g, '!thumb!$1'));
    expect(stage.fingered[0]!.plan.shifts).toBe(0);
    expect(new Set(placesOf(stage).replace(/:./g, '').split(' '))).toEqual(new Set(['D12', 'D14', 'D16', 'G12', 'G14', 'G16']));
    const mm = stage.fingered[0]!.plan.notes.flatMap((n) => n.places.map((p) => p.mm));
    expect(Math.max(...mm) - Math.min(...mm)).toBeCloseTo(108.3, 0);
  });
  it('gives the same bytes for the same input, inked or not', () => {
    for (const pins of ['none', 'changes', 'all'] as const)
      expect(arranged(reel, { version: 'low', pins }).text).toBe(arranged(reel, { version: 'low', pins }).text);
  });
  it('says what became of each note', () => {
    const { report } = arranged(reel, { version: 'low', thin: 'none' });
    expect(report).toHaveLength(14);
    expect(report.map((note) => note.fate)).toEqual([...Array(7).fill('kept'), ...Array(7).fill('octave')]);
  });
  it('moves the key where asked, with the chords', () => {
    const { text } = arranged(tune('M:4/4 ; L:1/4 ; K:D', '"D"D^GF"A7/C#"E|"Bm"D4|]'), { version: 'low', keyShift: 5, thin: 'none' });
    expect(text).toContain('K:G clef=bass');
    expect(text).toContain('key-shift=5');
    expect(bodyOf(text)).toBe('"G"G,^C B,"D7/F#"A,|"Em"G,4|]');
  });
  it('refuses a phrase that no octave holds, naming the bars and what helps', () => {
    const wide =
      (body: string, fields = 'M:4/4') =>
      () =>
        arranged(tune(`${fields} ; L:1/4 ; K:C`, body), { version: 'low' });
    expect(wide("C,,,DEF|g'''abc|")).toThrow(
      'The phrase of bars 1 to 2 spans 91 semitones, and this bass has 39 from its lowest to its highest note',
    );
    expect(wide("C,,,DEF|g'''abc|")).toThrow('Put a double bar or a part label');
    expect(wide("C,,,D,,EFga'b''", 'M:none')).toThrow(/^Bar 1 spans .* Divide it with a bar line/);
    expect(wide("C,DEF||g'abc|")).not.toThrow();
  });
  it('refuses a phrase that would fit but for its key', () =>
    expect(() => arranged(tune('M:4/4 ; L:1/4 ; K:C', "B,,DEF|c'gfe|"), { version: 'low' })).toThrow(/see bar [12].*--key/));
});

describe('joins over a fifth worse than the source’s', () => {
  /** Semitones below, one a part: A alone would lie 24 below; B climbs out of the preferred range there, so that 36 is cheaper but for the join. */
  const below = (body: string) => {
    const { report } = arranged(tune('M:4/4 ; L:1/4 ; K:C', body), { version: 'low', thin: 'none' });
    return [...new Set(report.map((note) => note.below))];
  };
  it('a sixth made of a third counts, though it is but a fourth wider: range gives way', () =>
    expect(below('P:A\nCDEc|\nP:B\nefga|')).toEqual([24]));
  it('a fifth made of a fourth up falls under no rule: range decides', () => expect(below('P:A\nCDEG|\nP:B\ncfga|')).toEqual([24, 36]));
  it('a leap that the source has as wide is the tune’s own', () => expect(below('P:A\nCDEC|\nP:B\nf2a2|')).toEqual([24, 36]));
});

describe('what is copied and what is left out', () => {
  const body = (text: string, fields = 'M:4/4 ; L:1/4') =>
    bodyOf(arranged(tune(`${fields} ; K:C`, text), { version: 'low', thin: 'none' }).text);
  it('copies repeats and endings', () =>
    expect(body('|:CDEF|1 G4:|2 E4||\n|:EFGA|B4::c4|d4:|')).toBe('|:C,D, E,F,|[1 G,4:|[2 E,4||\n|:E,F, G,A,|B,4::C4|D4:|'));
  it('drops graces, ornaments, slurs, and ties over the bar stay', () => expect(body('{d}~C!trill!D(EF-|F4)|]')).toBe('C,D, E,F,-|F,4|]'));
  it('writes triplets and dotted pairs with plain lengths', () =>
    expect(body('(3CDE F>G A/B/c/d/|]', 'M:4/4 ; L:1/4')).toContain('(3C,D,E,'));
  it('keeps rests', () => expect(body('C z E2|]')).toBe('C,z E,2|]'));
  it('carries accidentals that hold in the bar', () => expect(body('^C C =C D|C4|]')).toBe('^C,C, =C,D,|C,4|]'));
});

describe('11. keep the beats, hammer between them', () => {
  const source = tune('M:2/2 ; L:1/8 ; Q:1/2=120 ; K:D', 'DEFG AFED|E2C2 D4|');
  it('to quarters', () => expect(bodyOf(arranged(source, { version: 'low', thin: 'quarter' }).text)).toBe('D,2F,2 A,2E,2|E,2C,2 D,4|'));
  it('slurs first: all notes kept, at most seven attacks in any second, an open-string pair on the grid', () => {
    const { text, thinning } = arranged(source, { version: 'low', thin: 'auto' });
    expect(thinning).toBe('slur');
    const { part } = planned(text).fingered[0]!;
    expect(part.notes).toHaveLength(11);
    const attacks = part.notes.filter((n) => n.articulation === 'pluck').map((n) => (n.onset.num / n.onset.den) * 1000);
    for (const at of attacks) expect(attacks.filter((other) => other >= at && other < at + 1000).length).toBeLessThanOrEqual(7);
    const slurs = part.notes.filter((n) => n.articulation !== 'pluck').length;
    expect(slurs).toBeGreaterThan(0);
    expect(bodyOf(text)).toMatch(/\(D,E,\)|\(E,D,\)/);
  });
  it('never drops a pickup, a part’s last note, or a syncopation over the beat', () =>
    expect(bodyOf(arranged(tune('M:2/2 ; L:1/8 ; K:D', 'DE|F3GAFED|EFGA B3c|]'), { version: 'low', thin: 'quarter' }).text)).toBe(
      'D,E,|F,3G, A,2E,2|E,2G,2 B,3C|]'.replace('F,3G, ', 'F,4 '),
    ));
});

describe('12. years of revision must lose nothing', () => {
  const low = arranged(reel, { version: 'low', thin: 'none', pins: 'changes' }).text;
  const states = (source: string, version: string) => Object.fromEntries(statesOf(stageOf(source), stageOf(version)) ?? []);
  const drifts = (source: string, version: string) => driftOf(stageOf(source), stageOf(version)).map((d) => d.message);
  it('as made from what is there: clean', () => {
    expect(states(reel, low)).toEqual({ A: 'clean', B: 'clean' });
    expect(drifts(reel, low)).toEqual([]);
  });
  it('changing a bar of A makes A stale, not B', () =>
    expect(states(reel.replace('D2F2', 'D2G2'), low)).toEqual({ A: 'stale', B: 'clean' }));
  it('layout, octave, and the key with all notes a fourth up make nothing stale', () => {
    expect(states(reel.replace('D2F2 A2F2|', 'D2 F2A2 F2 | '), low)).toEqual({ A: 'clean', B: 'clean' });
    expect(
      states(
        reel
          .replace('K:D', 'K:G')
          .replace('D2F2 A2F2|G2E2 D4|', 'G2B2 d2B2|c2A2 G4|')
          .replace('f2a2 b2a2|g2e2 d4|', "b2d'2 e'2d'2|c'2a2 g4|"),
        low,
      ),
    ).toEqual({ A: 'clean', B: 'clean' });
  });
  it('deleting a bar of the version is one drift', () =>
    expect(drifts(reel, low.replace(/\|[^|]*\|\nP:B/, '|\nP:B'))).toEqual([
      'Part A has 1 bar here and 2 bars in the source. Bring them together, or list the part as extra=.',
    ]));
  it('an added part listed as extra is none', () => {
    const added = low.replace('P:A', 'P:K\nD,8|\nP:A');
    expect(drifts(reel, added)).toHaveLength(1);
    expect(drifts(reel, added.replace('version=low', 'version=low extra=K'))).toEqual([]);
  });
  it('a player’s change shows, and with a changed source it is a conflict', () => {
    const edited = low.replace('G,2E,2', 'G,2F,2').replace(/G,2(!.!)?(!sul.!)?E,2/, 'G,2F,2');
    expect(edited).not.toBe(low);
    expect(states(reel, edited).A).toBe('edited');
    expect(states(reel.replace('D2F2', 'D2G2'), edited)).toEqual({ A: 'conflict', B: 'clean' });
  });
  it('an update makes the stale part again, keeps the edited one byte for byte, and tells a conflict', () => {
    const edited = low.replace(/(P:A\n)/, '$1% my own words\n');
    const update = (source: string, version: string) => {
      const made = updateVersion(stageOf(source), stageOf(version), { tempo: null, thin: 'none', pins: 'changes' }, tools);
      if (made.kind !== 'updated') throw new Error(made.message);
      return made;
    };
    expect(update(reel, low).text).toBe(low);
    const changed = reel.replace('D2F2', 'D2G2');
    const stale = update(changed, low);
    expect(stale.parts.map((p) => p.state)).toEqual(['stale', 'clean']);
    expect(stale.text.split('P:B')[1]).toBe(low.split('P:B')[1]);
    expect(states(changed, stale.text)).toEqual({ A: 'clean', B: 'clean' });
    expect(stale.text).toBe(arranged(changed, { version: 'low', thin: 'none', pins: 'changes' }).text);
    const conflict = update(changed, edited);
    expect(conflict.text).toBe(edited);
    expect(conflict.parts.map((p) => p.state)).toEqual(['conflict', 'clean']);
    const half = update(changed.replace('f2a2', 'f2g2'), edited);
    expect(half.parts.map((p) => p.state)).toEqual(['conflict', 'stale']);
    expect(half.text).toContain(edited.slice(edited.indexOf('P:A'), edited.indexOf('P:B')));
    expect(states(changed.replace('f2a2', 'f2g2'), half.text)).toEqual({ A: 'conflict', B: 'clean' });
  });
  describe('parts come and go in the source', () => {
    const how = { tempo: null, thin: 'none', pins: 'changes' } as const;
    const update = (source: string, version: string) => {
      const made = updateVersion(stageOf(source), stageOf(version), how, tools);
      if (made.kind !== 'updated') throw new Error(made.message);
      return { text: made.text, told: made.parts.map((part) => `${part.part} ${part.state}`) };
    };
    const unpinned = (text: string) => bodyOf(text).replaceAll(/!\w+!/g, '');
    const c = 'P:C\nA2F2 D2F2|E2C2 D4|\n';
    it.each([
      ['at the end', `${reel}${c}`, ['A clean', 'B clean', 'C added']],
      ['in the middle', reel.replace('P:B', `${c}P:B`), ['A clean', 'C added', 'B clean']],
      ['at the start', reel.replace('P:A', `${c}P:A`), ['C added', 'A clean', 'B clean']],
    ])('a part added %s is put in where the source has it, as if all had been made anew', (_where, source, told) => {
      const made = update(source, low);
      expect(made.told).toEqual(told);
      expect(unpinned(made.text)).toBe(unpinned(arranged(source, { version: 'low', ...how }).text));
      expect(made.text).toContain(low.slice(low.indexOf('P:A'), low.indexOf('P:B')));
      expect(made.text).toContain(low.slice(low.indexOf('P:B')));
      expect(update(source, made.text)).toEqual({ text: made.text, told: told.map((one) => one.replace('added', 'clean')) });
    });
    it('drift says that an update adds it, and of a part taken out that the player decides', () => {
      expect(drifts(`${reel}${c}`, low)).toEqual([
        'Part C of the source is missing here. Update the versions (arrange --update) and it is added.',
      ]);
      expect(drifts(reel, low.replace(/P:B[\s\S]*/, ''))).toEqual([
        'Part B of the source is missing here. Add it, or take it out of the source.',
      ]);
    });
    it('beside a part changed by hand, which stays byte for byte', () => {
      const mine = low.replace('P:B\n', 'P:B\n% my own words\n');
      const made = update(`${reel}${c}`, mine);
      expect(made.told).toEqual(['A clean', 'B edited', 'C added']);
      expect(made.text).toContain(mine.slice(mine.indexOf('P:A')));
    });
    it('a part that the source has no more goes if it is as made, and stays if it was changed', () => {
      const without = reel.replace(/P:B[\s\S]*/, '');
      expect(update(without, low)).toEqual({ text: arranged(without, { version: 'low', ...how }).text, told: ['A clean', 'B removed'] });
      const mine = low.replace('P:B\n', 'P:B\n% my own words\n');
      expect(update(without, mine)).toEqual({ text: mine, told: ['A clean', 'B conflict'] });
    });
    it('a part that the player took out stays out, until its name is taken out of from= too', () => {
      const mine = low.replace(/P:B[\s\S]*/, '');
      expect(update(reel, mine)).toEqual({ text: mine, told: ['A clean', 'B gone'] });
      expect(update(reel.replace('f2a2', 'f2g2'), mine)).toEqual({ text: mine, told: ['A clean', 'B gone'] });
      expect(update(reel, mine.replace(/(from=A:\w+),B:\w+/, '$1'))).toEqual({ text: low, told: ['A clean', 'B added'] });
    });
    it('a part of the player’s own with the name of a new one stays', () => {
      const mine = `${low}P:C\nD,8|D,8|\n`;
      expect(update(`${reel}${c}`, mine)).toEqual({ text: mine, told: ['A clean', 'B clean', 'C conflict'] });
    });
    it('parts without labels, told apart by repeats, come and go too', () => {
      const plain = tune('I:bullfiddle tune=reel version=source ; M:2/2 ; L:1/8 ; K:D', '|:D2F2 A2F2|G2E2 D4:|\n|:f2a2 b2a2|g2e2 d4:|');
      const more = `${plain}|:A2F2 D2F2|E2C2 D4:|\n`;
      const version = (source: string) => arranged(source, { version: 'low', ...how }).text;
      expect(update(more, version(plain))).toEqual({ text: version(more), told: ['A clean', 'B clean', 'C added'] });
      expect(update(plain, version(more))).toEqual({ text: version(plain), told: ['A clean', 'B clean', 'C removed'] });
    });
  });
  it('an update keeps the file’s line ends', () => {
    const crlf = (text: string) => text.replace(/\n/g, '\r\n');
    const made = updateVersion(
      stageOf(reel.replace('D2F2', 'D2G2')),
      stageOf(crlf(low)),
      { tempo: null, thin: 'none', pins: 'changes' },
      tools,
    );
    expect(made).toMatchObject({ kind: 'updated', parts: [{ state: 'stale' }, { state: 'clean' }] });
    if (made.kind === 'updated')
      expect(made.text).toBe(crlf(arranged(reel.replace('D2F2', 'D2G2'), { version: 'low', thin: 'none', pins: 'changes' }).text));
  });
  it('digests of parts do not hang on the header', () =>
    expect(madeDigests(stageOf(low.replace('T:test', 'T:other')))).toEqual(madeDigests(stageOf(low))));
});

it('names a melody as the source, once', () => {
  const plain = tune('M:2/2 ; K:D', 'D4');
  const tagged = applyEdits(plain, sourceTagEdits(stageOf(plain)));
  expect(tagged).toBe('X:1\nT:test\nM:2/2\nI:bullfiddle tune=test version=source\nK:D\nD4\n');
  expect(sourceTagEdits(stageOf(tagged))).toEqual([]);
});

it('an arranged version is playable as it stands', () => {
  const stage = planStage(readBook(arranged(reel, { version: 'low' }).text), 0, tools.config, tools.tables);
  expect(stage.fingered.map((f) => f.plan.playable)).toEqual([true]);
});
