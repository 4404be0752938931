// Lyrics and symbol lines: which note each of their places belongs to.
import type { Syllable, SymbolToken } from '../../abc/tree/tree.ts';
import type { Offset } from '../../text/span.ts';
import { markOf } from './notes.ts';
import { reportAt, type TuneState } from './tune-state.ts';
import type { NoteDraft, VoiceState } from './voice-state.ts';

/** A place in a voice's notes that moves from note to note, graces left out. */
const skipGraces = (notes: readonly NoteDraft[], at: number): number => {
  let here = at;
  while (here < notes.length && notes[here]!.kind === 'grace') here++;
  return here;
};

/** After `|`: the first note of the bar after the one that the note before stands in. */
function nextBar(notes: readonly NoteDraft[], at: number, from: number): number {
  const before = notes[at - 1];
  // A bar sign before any place of this line belongs to the bar that the line begins with.
  const bar = at > from && before ? before.bar : (notes[at]?.bar ?? 0) - 1;
  let here = at;
  while (here < notes.length && notes[here]!.bar <= bar) here++;
  return here;
}

/** Music comes after lyrics or symbol lines: the next ones begin with it. */
export function musicBegins(voice: VoiceState): void {
  if (voice.verse > 0) voice.lyricsFrom = voice.notes.length;
  if (voice.symbolLines > 0) voice.symbolsFrom = voice.notes.length;
  voice.verse = 0;
  voice.symbolLines = 0;
}

/** Aligns a `w:` line to the notes since the last one; lines that follow at once are further verses (5.1, 5.2). */
export function alignLyrics(tune: TuneState, voice: VoiceState, syllables: readonly Syllable[], at: Offset, continued: boolean): void {
  if (!continued) {
    voice.verse++;
    voice.lyricsAt = voice.lyricsFrom;
  }
  for (const syllable of syllables) {
    voice.lyricsAt = skipGraces(voice.notes, voice.lyricsAt);
    if (syllable.kind === 'bar') {
      voice.lyricsAt = nextBar(voice.notes, voice.lyricsAt, voice.lyricsFrom);
      continue;
    }
    const note = voice.notes[voice.lyricsAt];
    if (!note) {
      if (syllable.kind === 'text') reportAt(tune, 'text.lyrics-too-many', { from: at + syllable.from, to: at + syllables.at(-1)!.to });
      return;
    }
    if (syllable.kind === 'text') {
      voice.lyrics.push({
        from: at + syllable.from,
        to: at + syllable.to,
        note: note.id,
        verse: voice.verse,
        text: syllable.text,
        hyphen: syllable.hyphen,
      });
    }
    voice.lyricsAt++;
  }
}

/** Aligns an `s:` line to the notes since the last one, as lyrics are; lines that follow at once begin at the same note (4.15). */
export function alignSymbols(tune: TuneState, voice: VoiceState, symbols: readonly SymbolToken[], at: Offset, continued: boolean): void {
  if (!continued) voice.symbolsAt = voice.symbolsFrom;
  voice.symbolLines++;
  for (const token of symbols) {
    voice.symbolsAt = skipGraces(voice.notes, voice.symbolsAt);
    if (token.kind === 'bar') {
      voice.symbolsAt = nextBar(voice.notes, voice.symbolsAt, voice.symbolsFrom);
      continue;
    }
    const note = voice.notes[voice.symbolsAt];
    if (!note) {
      if (token.kind === 'marks') reportAt(tune, 'text.symbols-too-many', { from: at + token.from, to: at + symbols.at(-1)!.to });
      return;
    }
    note.marks = [...note.marks, ...token.marks.map((mark) => markOf(mark, at, 'symbol-line'))];
    voice.symbolsAt++;
  }
}
