// Edits of the text: inking, pinning, octaves, backbeat accents.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import {
  accentEdits,
  defaultConfig,
  hammerSuggestions,
  type InkOptions,
  inkEdits,
  octaveEdits,
  pinEdits,
  planStage,
  unpinEdits,
} from '../../../server/src/arrangement/index.ts';
import type { PlanStage } from '../../../server/src/arrangement/types.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
import { applyEdits } from '../../../server/src/text/span.ts';
import { bodyOf, placesOf, planned, tune } from './support.ts';

const inked = (text: string, options: InkOptions): string => applyEdits(text, inkEdits(planned(text), options));

const ways: readonly InkOptions[] = (['all', 'changes'] as const).flatMap((density) =>
  (['inline', 'lines'] as const).map((form) => ({ density, form })),
);

describe('ink', () => {
  const text = tune('L:1/4 ; Q:1/4=120 ; K:G clef=bass', 'G,A,B,D|(F,G,) [D,B,] {A,}G,|');
  it('writes every place before its note', () =>
    expect(bodyOf(inked(tune('L:1/4 ; K:G clef=bass', 'G,A,B,!1!C'), { density: 'all', form: 'inline' }))).toMatch(
      /^!0!G,!1!!sulG!A,!4!!sulG!B,!sulG!!1!C$|^!0!G,!1!!sulG!A,!4!!sulG!B,!1!!sulG!C$/,
    ));
  it('writes fingers and strings in lines of their own', () =>
    expect(bodyOf(inked(tune('L:1/4 ; K:G clef=bass', 'A,B,|G,|'), { density: 'all', form: 'lines' }))).toBe(
      'A,B,|G,|\ns: !1! !4! !0!\ns: !sulG! !sulG!',
    ));
  it.each(ways)('$density, $form: the search then gives the same plan at the same cost, and inking again changes nothing', (options) => {
    const once = inked(text, options);
    expect(placesOf(planned(once))).toBe(placesOf(planned(text)));
    expect(planned(once).fingered[0]!.plan.cost).toBe(planned(text).fingered[0]!.plan.cost);
    expect(inked(once, options)).toBe(once);
  });
  it('holds for every bass part of the demo', () => {
    const tables = makeTables(8 * 1024 * 1024);
    const folder = new URL('../../../media/demo/', import.meta.url);
    const places = (stage: PlanStage) => stage.fingered.map((f) => [f.plan.cost, f.plan.notes.map((n) => n.places)]);
    readdirSync(folder)
      .filter((name) => name.endsWith('.abc'))
      .forEach((name, file) => {
        const options = ways[file % ways.length]!;
        const book = readBook(readFileSync(new URL(name, folder), 'utf8'));
        book.tunes.forEach((_, i) => {
          const stage = planStage(book, i, defaultConfig, tables);
          const once = applyEdits(stage.text, inkEdits(stage, options));
          const again = planStage(readBook(once), 0, defaultConfig, tables);
          expect(places(again)).toEqual(places(stage));
          expect(applyEdits(once, inkEdits(again, options))).toBe(once);
        });
      });
  });
});

describe('pinning one note', () => {
  const pin = (body: string, place: { string: string; finger: '0' | '2' | 'T'; harmonic?: boolean }) => {
    const text = tune('L:1/4 ; K:G clef=bass', body);
    return bodyOf(applyEdits(text, pinEdits(planned(text).fingered[0]!.part.notes[0]!, 0, { harmonic: false, ...place })));
  };
  it('writes what is missing', () => expect(pin('(A,B,)', { string: 'D', finger: '2' })).toBe('(!2!!sulD!A,B,)'));
  it('replaces what says otherwise', () => expect(pin('!1!!sulG!A,', { string: 'D', finger: '2' })).toBe('!2!!sulD!A,'));
  it('leaves what is right', () => expect(pin('!2!A,', { string: 'G', finger: '2' })).toBe('!2!!sulG!A,'));
  it('replaces a pin in a symbol line where it stands', () =>
    expect(pin('A,\ns: !1!', { string: 'G', finger: '2' })).toBe('!sulG!A,\ns: !2!'));
  it('goes against a string text only for this note', () =>
    expect(pin('"^sul G"A,B,', { string: 'D', finger: '2' })).toBe('"^sul G"!2!!sulD!A,B,'));
  it('is taken out again', () => {
    const text = tune('L:1/4 ; K:G clef=bass', '!1!!sulG!A,');
    expect(bodyOf(applyEdits(text, unpinEdits(planned(text).fingered[0]!.part.notes[0]!)))).toBe('A,');
  });
});

it('moves a passage by octaves, chords and graces included, and back', () => {
  const text = tune('L:1/4 ; K:G clef=bass', "{g}c' ^c,, [=B,d] e");
  const stage = planned(text);
  const up = applyEdits(text, octaveEdits(stage, { from: 0, to: text.length }, 1));
  expect(bodyOf(up)).toBe("{g'}c'' ^C [=Bd'] e'");
  expect(bodyOf(applyEdits(up, octaveEdits(planned(up), { from: 0, to: up.length }, -1)))).toBe("{g}c' ^C, [=B,d] e");
});

describe('hammer-ons that lie under the hand', () => {
  const suggested = (body: string) => {
    const text = tune('M:4/4 ; L:1/8 ; Q:1/4=120 ; K:G clef=bass', body);
    const stage = planned(text);
    const found = hammerSuggestions(stage, stage.fingered[0]!);
    return found.map(({ kind, edits }) => `${kind} ${bodyOf(applyEdits(text, edits))}`);
  };
  it('from an open string up, and down to it; pins stay with their notes', () =>
    expect(suggested('D,E,F,2|!1!!sulD!E,!0!D,F,2|')).toEqual([
      'hammer (D,E,)F,2|!1!!sulD!E,!0!D,F,2|',
      'pull D,E,F,2|(!1!!sulD!E,!0!D,)F,2|',
    ]));
  it('not from off the beat, over a rest, wider than a tone, or too slow', () => {
    expect(suggested('A,2D,E,F,2|')).toEqual(['hammer A,2(D,E,)F,2|']);
    expect(suggested('D,zE,2F,4|')).toEqual([]);
    expect(suggested('D,F,A,2|')).toEqual([]);
    expect(suggested('[Q:1/4=40]D,E,F,2|')).toEqual(['hammer [Q:1/4=40](D,E,)F,2|']);
  });
  it('each suggestion, taken, is played without a shift and costs no window', () => {
    const text = tune('M:4/4 ; L:1/8 ; Q:1/4=120 ; K:G clef=bass', 'D,E,F,G, A,B,A,G,|B,CA,B, G,A,F,G,|');
    const stage = planned(text);
    for (const { edits } of hammerSuggestions(stage, stage.fingered[0]!))
      expect(planned(applyEdits(text, edits)).fingered[0]!.plan.playable).toBe(true);
  });
});

describe('9. an accent is a pluck, on the backbeat', () => {
  const accented = (text: string) => {
    const stage = planned(text);
    return applyEdits(text, accentEdits(stage, stage.fingered[0]!.part));
  };
  it('accents 2 and 4 in cut time where a note is plucked, and twice changes nothing', () => {
    const once = accented(tune('M:2/2 ; L:1/8 ; K:D clef=bass', 'D,2(E,F,) G,2A,2|D,4 G,4|D,(E,F,2) G,2A,2|'));
    expect(bodyOf(once)).toBe('D,2(!>!E,F,) G,2!>!A,2|D,4 G,4|D,(E,F,2) G,2!>!A,2|');
    expect(accented(once)).toBe(once);
  });
  it.each([
    ['M:2/4', 'D,E,F,G,|', 'D,!>!E,F,!>!G,|'],
    ['M:6/8', 'D,E,F, G,A,B,|', 'D,E,F, !>!G,A,B,|'],
    ['M:3/4', 'D,2E,2F,2|', 'D,2E,2F,2|'],
    ['M:4/4', 'A,2|D,2!1!E,2F,2!accent!G,2|', '!>!A,2|D,2!>!!1!E,2F,2!accent!G,2|'],
  ])('counts %s', (meter, body, out) => expect(bodyOf(accented(tune(`${meter} ; L:1/8 ; K:D clef=bass`, body)))).toBe(out));
});
