// The words around a tune's music on paper: title, tempos, credit above; what the signs mean and the caution below.
import type { Plan } from '../../arrangement/types.ts';
import { backbeatLegend } from '../backbeats.ts';
import type { HandoutTune } from '../types.ts';
import { caution, creditText, strains, topTempoText } from '../words.ts';
import { type Block, blockOf, fittingSize, textMark, wrapped } from './blocks.ts';
import type { FontBook } from './fonts.ts';
import type { TextMark } from './marks.ts';
import { gaps, margins, type Paper, sizes } from './paper.ts';

/** Title, subtitles, tempos on the left, credit on the right. */
export function titleBlock(tune: HandoutTune, paper: Paper, fonts: FontBook): Block {
  const width = paper.width - 2 * margins.side;
  const titles = tune.score.texts.filter((text) => text.letter === 'T' && text.from >= 0).map((text) => text.text);
  const [title = 'Untitled', ...others] = titles.filter((text) => text !== '');
  const size = fittingSize(fonts, title, 'serif-bold', sizes.title, width);
  const marks: TextMark[] = [textMark(title, 0, 0, size, 'serif-bold')];
  let y = 0;
  for (const other of others) {
    y += gaps.line * 1.2;
    marks.push(textMark(other, 0, y, fittingSize(fonts, other, 'serif-italic', sizes.subtitle, width), 'serif-italic'));
  }
  const row = rowUnder(tune, y + gaps.line * 1.5, width, fonts);
  return blockOf(fonts, 'title', [...marks, ...row], 1);
}

function rowUnder(tune: HandoutTune, y: number, width: number, fonts: FontBook): readonly TextMark[] {
  const tops = [...new Set(tune.plans.map(topTempoText).filter((text) => text !== ''))].join('; ');
  const left = [tops === '' ? '' : `${tops}.`, backbeatLegend(tune) ?? ''].filter((text) => text !== '').join(' ');
  const right = creditText(tune.score);
  const leftWidth = fonts.width(left, 'serif', sizes.words);
  const rest = width - leftWidth - (left === '' ? 0 : gaps.line);
  const lines = wrapped(fonts, right, 'serif-italic', sizes.credit, Math.max(rest, width / 3));
  const credit = lines.map((line, i) => textMark(line, width, y + i * gaps.line, sizes.credit, 'serif-italic', 'end'));
  return left === '' ? credit : [textMark(left, 0, y, sizes.words, 'serif'), ...credit];
}

/** What the signs of this tune mean, and the caution where it applies; null for a melody. */
export function keyBlock(tune: HandoutTune, paper: Paper, fonts: FontBook): Block | null {
  if (tune.plans.length === 0) return null;
  const width = paper.width - 2 * margins.side;
  const texts = [signsText(tune.plans), ...(tune.plans.some(strains) ? [caution] : [])];
  const lines = texts.flatMap((text) => wrapped(fonts, text, 'serif', sizes.key, width));
  const rule = { kind: 'path', d: `M0 0L${width.toFixed(2)} 0`, fill: false, pen: 0.43, ends: 'flat', dash: null } as const;
  return blockOf(fonts, 'key', [rule, ...lines.map((line, i) => textMark(line, 0, gaps.line * (i + 0.85), sizes.key, 'serif'))], 1);
}

/** The key to the signs in one paragraph; signs that do not occur are left out. */
function signsText(plans: readonly Plan[]): string {
  const notes = plans.flatMap((plan) => plan.notes);
  const attacks = new Set(notes.map((note) => note.attack));
  const places = notes.flatMap((note) => note.places);
  const strings = [...new Set(plans.flatMap((plan) => plan.strings))].join(' ');
  const parts = [
    'The staff is written an octave above the sound.',
    `Tab: strings ${strings} from the top; numbers are stops, semitones above the open string.`,
    `Over the staff: fingers 0 open, 1 to 4${places.some((place) => place.finger === 'T') ? ', T thumb' : ''}; string at a change; place of the hand.`,
    attacks.has('hammer') || attacks.has('pull') ? 'Arc: hammer-on or pull-off, plucked once.' : '',
    attacks.has('glide') || attacks.has('scoop') ? 'Straight line: slide.' : '',
    attacks.has('left-hand') ? 'Plus: left-hand pizzicato.' : '',
    places.some((place) => place.harmonic) ? 'Circle: harmonic.' : '',
    plans.some((plan) => !plan.playable) ? 'Notes without a number: no hand plays them as written.' : '',
  ];
  return parts.filter((text) => text !== '').join(' ');
}
