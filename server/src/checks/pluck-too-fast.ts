// pluck.too-fast: more attacks than the right hand makes, slurred notes left out.
import { hardestPlucking } from '../arrangement/index.ts';
import type { BassPart, PartStage } from '../arrangement/types.ts';
import type { Check, Finding } from './check.ts';
import { finding, over } from './shared/finding.ts';
import { bassParts } from './shared/parts.ts';
import { type FastPassage, fastPassages } from './shared/pluck-windows.ts';
import { count, slowerTempo } from './shared/words.ts';

export const pluckTooFast: Check<'part'> = {
  codes: ['pluck.too-fast'],
  needs: 'part',
  severity: 'warning',
  find: (stage: PartStage) => bassParts(stage).flatMap((part) => fastPassages(part).map((passage) => fastFinding(part, passage))),
};

function fastFinding(part: BassPart, passage: FastPassage): Finding {
  const severity = passage.level === 'impossible' ? 'error' : 'warning';
  return finding('pluck.too-fast', severity, over(passage.notes.map((note) => note.note)), message(part, passage));
}

function message(part: BassPart, passage: FastPassage): string {
  const tempo = part.tempo!;
  const attacks = `${count(passage.notes.length, 'plucked note')}, up to ${passage.rate.toFixed(1)} a second`;
  const remedy = 'Slur pairs of notes, thin the line out, or slow down';
  if (passage.level === 'impossible') {
    return `${attacks}: no right hand makes more than ${hardestPlucking.attacks} in a second, nor two within ${hardestPlucking.gap / 1000} ms. ${remedy}: ${slowerTempo(tempo, passage.limitSlowdown)} is the limit, ${slowerTempo(tempo, passage.comfortSlowdown)} is comfortable.`;
  }
  return `${attacks}: comfortable are ${part.setup.pluck}. ${remedy}: ${slowerTempo(tempo, passage.comfortSlowdown)}.`;
}
