// Fuzzing of the formatter: random music, formatted twice. White space alone may change, the music never, and the second run changes nothing. Arguments: texts (5000), seed (1).
import { readBook } from '../../server/src/abc/index.ts';
import { scoreStage } from '../../server/src/arrangement/index.ts';
import { defaultFeatureSettings } from '../../server/src/features/feature.ts';
import { format } from '../../server/src/features/format.ts';
import { sameMusic } from '../../server/src/features/shared/same-music.ts';
import { applyEdits } from '../../server/src/text/span.ts';
import { seeded } from '../support/random.ts';

const count = Number(process.argv[2] ?? 5000);
const random = seeded(Number(process.argv[3] ?? 1));
const pieces =
  'D,|E,2|F| | | |BAR|BAR|:BAR|BAR:|[CE]|[|z|(3|(|)|-|>|"G"|!1!|{g}|1|[1|&|y|.|~|`|$|\\|::|/|2|]|[V:1]|x|Z2|BAR]|+|u|\n|[V:2]|w:la|% said'
    .split('|')
    .map((piece) => piece.replace('BAR', '|'));

const stageOf = (text: string) => scoreStage(readBook(text), 0);
const formatted = (text: string): string => applyEdits(text, format.answer(stageOf(text), null, defaultFeatureSettings));
const withoutSpace = (text: string): string => text.replace(/\s+/g, '');

let wrong = 0;
for (let i = 0; i < count; i++) {
  const body = Array.from({ length: 8 + random.below(20) }, () => random.pick(pieces)).join('');
  const text = `X:1\nM:4/4\nL:1/8\nK:D\n${body}\n`;
  const once = formatted(text);
  const fault =
    withoutSpace(once) !== withoutSpace(text)
      ? 'other signs'
      : !sameMusic(stageOf(text).score, stageOf(once).score)
        ? 'other music'
        : formatted(once) !== once
          ? 'not settled'
          : null;
  if (fault === null) continue;
  wrong++;
  if (wrong <= 5) console.log(`${fault}: ${JSON.stringify(text)}`);
}
console.log(`${count} texts: ${wrong} wrong`);
process.exitCode = wrong === 0 ? 0 : 1;
