// Whatever the text, reading it as a part, fingering, editing and arranging give answers and do not throw.
import { it } from 'vitest';
import { applyEdits } from '../../../server/src/text/span.ts';
import { useAll } from '../../support/arranging.ts';
import { randomEdit, randomText, seeded } from '../../support/random.ts';
import { tune } from './support.ts';

const parts = tune(
  'I:bullfiddle tune=x version=low from=A:1,B:2 made=A:3 ; P:ABA ; M:4/4 ; L:1/8 ; Q:1/4=120 ; K:G clef=bass',
  'P:A\n|:"G"G,2(A,B,) "^sul D"A,!1!B,C2|1 [D,A,]4 {A,}G,4:|2 (3G,A,B, !slide!D4 z2|]\ns: !1! * !sulG!\nP:B\n[V:2]G,8-|G,8|',
);

it('random pieces of tune text', () => {
  const random = seeded(11);
  for (let i = 0; i < 6; i++) useAll(randomText(random, 5 + random.below(60)));
});
it('a part with everything in it, changed at random', () => {
  const random = seeded(12);
  for (let i = 0; i < 6; i++) {
    let text = parts;
    for (let k = 0; k < 1 + random.below(4); k++) text = applyEdits(text, [randomEdit(random, text)]);
    useAll(text);
  }
});
it.each(['', 'X:1', 'X:1\nK:', 'X:1\nK:C clef=bass\n', 'X:1\nK:C clef=bass\n|||', '\0\0', 'X:1\nM:4/4\nL:0\nQ:0=0\nK:C clef=bass\nC0 D,|'])(
  '%j',
  (text) => useAll(text),
);
