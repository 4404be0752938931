// A tune as tab in plain text: readable in a terminal, a mail or a chat, by bar, with fingers and rhythm.
import type { Plan } from '../../arrangement/types.ts';
import { barNumber } from '../../score/bar-numbers.ts';
import type { ExportOptions, HandoutTune } from '../types.ts';
import { askedTempoText, caution, creditText, keyName, strains, topTempoText } from '../words.ts';
import { tabContext } from './columns.ts';
import { systemsOf } from './systems.ts';

/** The tune as text, lines ended by LF. A tune without a bass part is named and says so. */
export function textTab(tune: HandoutTune, options: ExportOptions): string {
  const lines = heading(tune);
  if (tune.plans.length === 0) lines.push('', 'No bass part here: give the voice clef=bass or "I:bullfiddle part=bass" to see it in tab.');
  for (const plan of tune.plans) lines.push('', ...partLines(tune, plan, options));
  if (tune.plans.some(strains)) lines.push('', caution);
  const foot = [options.credit.by, options.credit.version, options.credit.date].filter((text) => text !== '').join(', ');
  if (foot !== '') lines.push('', foot);
  return `${lines.map(printable).join('\n')}\n`;
}

/** Control characters in a title must not reach a terminal. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out.
const printable = (line: string): string => line.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g, '\uFFFD');

function heading(tune: HandoutTune): string[] {
  const { score } = tune;
  const facts = [keyName(score) === '' ? '' : `Key ${keyName(score)}`, score.meterText].filter((text) => text !== '').join(', ');
  return [score.title === '' ? 'Untitled' : score.title, facts, creditText(score)].filter((text) => text !== '');
}

function partLines(tune: HandoutTune, plan: Plan, options: ExportOptions): readonly string[] {
  const voice = tune.score.voices.find((v) => v.id === plan.voice);
  if (!voice) return [];
  const context = tabContext(voice, plan, options.density);
  const name = tune.plans.length > 1 ? [`Voice ${voice.properties.name ?? voice.id}`] : [];
  const systems = systemsOf(context);
  const legend = legendOf(systems.join('\n'), plan);
  return [
    ...name,
    ...[[askedTempoText(plan), topTempoText(plan)].filter((text) => text !== '').join('. ')].filter((text) => text !== ''),
    '',
    ...systems,
    '',
    legend,
    ...windowLines(tune, plan),
  ];
}

const signs: readonly (readonly [RegExp, string])[] = [
  [/h\d/, 'h hammer-on'],
  [/p\d/, 'p pull-off'],
  [/[/\\]\d/, '/ slide'],
  [/<\d/, '<> harmonic'],
  [/\+\d/, '+ left-hand pizzicato'],
  [/x\d/, 'x muted'],
  [/\?/, '? no hand plays this'],
];

/** What the signs mean, those used only. */
function legendOf(systems: string, plan: Plan): string {
  const used = signs.filter(([pattern]) => pattern.test(systems)).map(([, text]) => text);
  const hand = /^hand/m.test(systems) ? ['hand: stop of finger 1 (T of the thumb) from here'] : [];
  return [`Strings ${plan.strings.join(' ')} from the top, numbers are stops (semitones above open)`, ...hand, ...used].join('; ');
}

function windowLines(tune: HandoutTune, plan: Plan): readonly string[] {
  const voice = tune.score.voices.find((v) => v.id === plan.voice);
  return plan.windows.map((window) => {
    const bars = voice
      ? window.notes.flatMap((id) => voice.notes.find((note) => note.id === id)?.bar ?? []).map((bar) => barNumber(voice, bar))
      : [];
    const [first, last] = [Math.min(...bars), Math.max(...bars)];
    return `Bar ${first === last ? first : `${first} to ${last}`}: no hand plays this (${window.code}).`;
  });
}
