// A line of music, item by item, into the voices of a tune.
import type { MusicItem } from '../../abc/tree/items.ts';
import type { Offset, Span } from '../../text/span.ts';
import { addBarLine, beginEnding, beginLayer } from './bars.ts';
import { applyBodyField } from './fields.ts';
import { addTie, closeSlur, openSlur } from './joins.ts';
import { addChord, addGraces, addMark, addNote, addRest, markOf } from './notes.ts';
import { addBroken, beginTuplet } from './rhythm.ts';
import { currentVoice, type TuneState } from './tune-state.ts';

const spanAt = (item: MusicItem, at: Offset): Span => ({ from: at + item.from, to: at + item.to });

/** Reads items whose line begins at `at` of the tune. */
export function addItems(tune: TuneState, items: readonly MusicItem[], at: Offset): void {
  let voice = currentVoice(tune, at);
  for (const item of items) {
    switch (item.kind) {
      case 'note':
        addNote(tune, voice, item, at);
        break;
      case 'chord':
        addChord(tune, voice, item, at);
        break;
      case 'grace':
        addGraces(tune, voice, item, at);
        break;
      case 'rest':
        addRest(tune, voice, item, at);
        break;
      case 'bar':
        addBarLine(tune, voice, item, at);
        break;
      case 'ending':
        beginEnding(voice, item.numbers, at + item.from);
        break;
      case 'decoration':
      case 'quoted':
        addMark(voice, markOf(item, at, 'inline'));
        break;
      case 'tuplet':
        beginTuplet(voice, item, spanAt(item, at));
        break;
      case 'inline':
        applyBodyField(tune, item.field, at);
        voice = currentVoice(tune, at);
        break;
      case 'macro':
        addItems(tune, item.expansion, at);
        break;
      case 'slur-open':
        openSlur(voice, item.dotted, at, item);
        break;
      case 'slur-close':
        closeSlur(tune, voice, at, item);
        break;
      case 'tie':
        addTie(tune, voice, spanAt(item, at));
        break;
      case 'broken':
        addBroken(tune, voice, item.toward, item.degree, spanAt(item, at));
        break;
      case 'overlay':
        beginLayer(tune, voice);
        break;
      case 'spacer':
        voice.marks = null;
        break;
      case 'space':
        voice.spaceTo = at + item.to;
        break;
      case 'back-quote':
      case 'line-break':
      case 'continuation':
      case 'comment':
      case 'line-end':
      case 'unknown':
        break;
      default:
        item satisfies never;
    }
  }
}
