// A tune as MusicXML 4.0: each voice on its staff, each bass voice again as tab with strings, stops and fingers.
import type { Score } from '../../score/types.ts';
import type { ExportOptions, HandoutTune } from '../types.ts';
import { element, escaped, textElement } from '../xml.ts';
import { measureElement } from './measure.ts';
import { type Part, partOf } from './part.ts';

/** The file's text, UTF-8. */
export function musicXml(tune: HandoutTune, options: ExportOptions): string {
  const { score } = tune;
  const parts = partsOf(tune);
  const body = element(
    'score-partwise',
    { version: '4.0' },
    element('work', {}, textElement('work-title', score.title)),
    identification(score, options),
    element('part-list', {}, ...parts.map((part) => element('score-part', { id: part.id }, textElement('part-name', part.name)))),
    ...parts.map((part) => element('part', { id: part.id }, ...measures(score, part))),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${body.replaceAll('<measure', '\n<measure').replaceAll('<part ', '\n<part ')}\n`;
}

/** The schema wants a measure in each part; a voice without bars gets one that is empty. */
function measures(score: Score, part: Part): readonly string[] {
  if (part.voice.bars.length === 0) return [element('measure', { number: 1 })];
  return part.voice.bars.map((_, i) => measureElement(score, part, i));
}

function partsOf({ score, plans }: HandoutTune): readonly Part[] {
  return score.voices.flatMap((voice, i) => {
    const plan = plans.find((each) => each.voice === voice.id) ?? null;
    const name = voice.properties.name ?? (plan ? 'Bass' : 'Melody');
    const staff = partOf(`P${i + 1}`, name, 'staff', voice, plan);
    return plan ? [staff, partOf(`P${i + 1}-tab`, `${name} tab`, 'tab', voice, plan)] : [staff];
  });
}

function identification(score: Score, options: ExportOptions): string {
  const of = (letter: string): readonly string[] => score.texts.filter((text) => text.letter === letter).map((text) => text.text);
  const creator = (type: string, letter: string): string =>
    of(letter)
      .map((text) => element('creator', { type }, escaped(text)))
      .join('');
  const encoding = element(
    'encoding',
    {},
    textElement('software', 'Bullfiddle'),
    options.credit.date.match(/^\d{4}-\d\d-\d\d$/) ? textElement('encoding-date', options.credit.date) : null,
  );
  const source = of('S').join('; ');
  return element(
    'identification',
    {},
    creator('composer', 'C'),
    creator('lyricist', 'A'),
    encoding,
    source === '' ? null : textElement('source', source),
  );
}
