// From a tune's tree to its score: voices of timed notes.
import { plainText } from '../../abc/read/plain-text.ts';
import type { Field } from '../../abc/tree/fields.ts';
import type { HeaderTree, PlacedLine, TextError, TuneTree } from '../../abc/tree/tree.ts';
import { shifted } from '../../text/span.ts';
import { compare, ZERO } from '../fraction.ts';
import { defaultUnit } from '../meter.ts';
import type { Fraction, Score } from '../types.ts';
import { alignLyrics, alignSymbols, musicBegins } from './align.ts';
import { closeLastBar } from './bars.ts';
import { applyBodyField, applyHeaderField } from './fields.ts';
import { reportHeader, reportOpenBlock, reportParts } from './header-errors.ts';
import { reportOpenSlurs } from './joins.ts';
import { addItems } from './music.ts';
import { endRhythms } from './rhythm.ts';
import { currentVoice, newTune, type TuneState, voiceNamed } from './tune-state.ts';
import { finished } from './voice-state.ts';

/** The score of a tune under its file's header. Never throws; what is wrong is in `errors`. */
export function readScore(header: HeaderTree, tree: TuneTree): Score {
  const tune = newTune(tree.strictness);
  for (const { line, at } of header.lines) {
    // The file header ends at the first empty line (2.2.2).
    if (line.kind === 'blank') break;
    for (const field of fieldsOf(line)) applyHeaderField(tune, field, at, 'file');
  }
  const end = endOfTune(tree);
  for (let i = 0; i < end; i++) {
    const placed = tree.lines[i]!;
    takeErrors(tune, placed);
    if (i >= tree.bodyStart) addBodyLine(tune, placed);
    else for (const field of fieldsOf(placed.line)) applyHeaderField(tune, field, placed.at, 'tune');
    if (i === tree.bodyStart - 1) beginBody(tune, placed);
  }
  for (let i = end; i < tree.lines.length; i++) takeErrors(tune, tree.lines[i]!);
  for (const voice of tune.voices.values()) {
    endRhythms(tune, voice);
    closeLastBar(voice);
    reportOpenSlurs(tune, voice);
  }
  reportHeader(tune, tree, end);
  reportParts(tune, tree);
  reportOpenBlock(tune, tree);
  return scoreOf(tune);
}

/** The fields of a line, those of an included file after it; none for other lines. */
function fieldsOf(line: PlacedLine['line']): readonly Field[] {
  if (line.kind !== 'field' && line.kind !== 'directive') return [];
  return line.included ? [line.field, ...line.included] : [line.field];
}

/** Index of the empty line that ends the tune, or the number of lines. */
function endOfTune(tree: TuneTree): number {
  const blank = tree.lines.findIndex(({ line }) => line.kind === 'blank');
  return blank < 0 ? tree.lines.length : blank;
}

function takeErrors(tune: TuneState, { at, line }: PlacedLine): void {
  for (const error of line.errors) tune.errors.push({ ...error, span: shifted(error.span, at) });
}

/** The header has ended: its voices exist from here on, in the order in which it names them. */
function beginBody(tune: TuneState, { at, line }: PlacedLine): void {
  for (const id of tune.declared.keys()) voiceNamed(tune, id, at + line.text.length);
}

function addBodyLine(tune: TuneState, { at, line }: PlacedLine): void {
  switch (line.kind) {
    case 'music':
      musicBegins(currentVoice(tune, at));
      addItems(tune, line.items, at);
      return;
    case 'field':
    case 'directive':
      for (const field of fieldsOf(line)) applyBodyField(tune, field, at);
      return;
    case 'lyrics':
      alignLyrics(tune, currentVoice(tune, at), line.syllables, at, line.continued === true);
      return;
    case 'symbols':
      alignSymbols(tune, currentVoice(tune, at), line.symbols, at, line.continued === true);
      return;
    case 'typeset':
    case 'field-continuation':
    case 'comment':
    case 'blank':
    case 'free':
      return;
    default:
      line satisfies never;
  }
}

function scoreOf(tune: TuneState): Score {
  const voices = [...tune.voices.values()];
  const title = tune.texts.find(({ letter, from }) => letter === 'T' && from >= 0);
  return {
    number: tune.number,
    title: title?.text ?? '',
    texts: tune.texts,
    key: tune.key,
    keyText: plainText(tune.keyText),
    meter: tune.meter,
    meterText: tune.meterText,
    unit: tune.unit ?? defaultUnit(tune.meter),
    tempos: tune.tempos,
    partOrder: tune.partOrder,
    voices: voices.map(finished),
    errors: sorted(tune.errors),
    end: voices.reduce((end: Fraction, { time }) => (compare(time, end) > 0 ? time : end), ZERO),
  };
}

const sorted = (errors: readonly TextError[]): readonly TextError[] => [...errors].sort((a, b) => a.span.from - b.span.from);
