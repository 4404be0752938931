// Every error of the text: its code, how grave it is read strictly and loosely, and what it says.
import type { Offset } from '../../text/span.ts';
import type { TextError } from '../tree/tree.ts';
import type { Strictness } from './dialect.ts';

type Severity = TextError['severity'];

interface Kind {
  readonly strict: Severity;
  readonly loose: Severity;
  /** What is wrong and what to do; `what` is the piece of text it is about. */
  readonly says: (what: string) => string;
}

const error = (says: Kind['says']): Kind => ({ strict: 'error', loose: 'error', says });
const eased = (says: Kind['says']): Kind => ({ strict: 'error', loose: 'warning', says });
const warning = (says: Kind['says']): Kind => ({ strict: 'warning', loose: 'warning', says });

const KINDS = {
  'text.unknown-sign': eased(
    (what) => `${what} means nothing in music here and is skipped. Take it out, or put words in quotes: "^like this".`,
  ),
  'text.reserved-sign': eased((what) => `${what} is reserved by the standard and is skipped. Take it out.`),
  'text.symbol-undefined': eased(
    (what) => `No decoration is set for the letter ${what}. Define it in the header, for instance U:${what}=!accent!, or take it out.`,
  ),
  'text.not-music': error(() => 'These words are no music. Begin the line with % for a remark, or with N: or W: for a note or words.'),
  'text.accidental-without-note': error((what) => `The accidental ${what} has no note. Write a letter A to G right after it.`),
  'text.length-zero': error((what) => `A length of ${what} is no length; 1 is read. Write a number above 0.`),
  'text.length-too-large': error((what) => `The length ${what} is larger than can be counted. Write numbers of at most four digits.`),
  'text.quote-unclosed': error(() => 'This text is not closed. Write a second " after it, on the same line.'),
  'text.decoration-unclosed': eased(() => 'This decoration is not closed. Write the same sign after its name, on the same line.'),
  'text.decoration-old-sign': eased((what) => `Decorations between plus signs are an old form. Write !${what}!.`),
  'text.decoration-other-sign': error(
    (what) => `The tune says that decorations stand between other signs (I:decoration); ${what} is skipped. Write the sign it names.`,
  ),
  'text.decoration-unknown': warning((what) => `No decoration is called ${what}; the note is kept. Check the spelling.`),
  'text.chord-unclosed': error(() => 'This chord is not closed. Write ] after its last note.'),
  'text.chord-empty': error(() => 'There is no note between these brackets. Write one, or take the brackets out.'),
  'text.grace-unclosed': error(() => 'These grace notes are not closed. Write } after the last one.'),
  'text.field-unclosed': error((what) => `The field [${what}: is not closed. Write ] after its value.`),
  'text.sign-unopened': error((what) => `${what} closes nothing and is skipped. Take it out, or write the opening sign before.`),
  'text.tuplet-wrong': error((what) => `${what} is no tuplet. Write (3 or (p:q:r with numbers from 1, p from 2.`),
  'text.ending-spaced': eased((what) => `An ending number needs a bracket when it does not touch the bar line. Write [${what}.`),
  'text.ending-wrong': error((what) => `The ending number ${what} cannot be read. Write numbers from 1, as in [1 or [1,3 or [1-3.`),
  'text.backslash-inside': eased(() => 'A backslash joins lines only at the end of a line; here it is skipped. Take it out.'),
  'text.broken-too-deep': eased((what) => `${what} has too many signs. Write at most three.`),
  'text.field-unknown': warning((what) => `The standard knows no field ${what}:, so it is skipped. Check the letter.`),
  'text.field-misplaced': eased((what) => `${what}: does not belong here. See its place in the standard, section 3.`),
  'text.field-value': error((what) => what),
  'text.macro-too-long': error(
    () => 'This macro is too long or one too many and is left out. Write at most 200 signs in one, and at most 100 macros.',
  ),
  'text.key-missing': eased(() => 'The header of this tune has no K: as its last line; C major is read. Write one, for instance K:C.'),
  'text.key-late': error(() => 'Music begins before the header has ended. Write K: with a key on the line before.'),
  'text.title-missing': eased(() => 'A tune needs a title. Write T: with one on the line after X:.'),
  'text.title-late': eased(() => 'The title must follow X: at once. Move the T: line up.'),
  'text.no-tune': error(() => 'There is no tune here: one begins with X: and a number. Write X:1, then T: with a title and K: with a key.'),
  'text.tune-unended': warning(() => 'The next tune begins right after this line. Write an empty line between two tunes.'),
  'text.block-unclosed': error((what) => `This block is never closed. Write %%end${what} after it.`),
  'text.block-unopened': warning((what) => `%%end${what} closes nothing. Take it out, or write %%begin${what} before.`),
  'text.continuation-alone': error(
    () => 'There is no field before this line that +: could continue. Take it out, or move it under its field.',
  ),
  'text.octave-too-far': error(() => "No instrument reaches this octave. Take some of the , or ' signs out."),
  'text.tie-without-note': error(() => 'This tie has no note before it. Write - right after the note that is held.'),
  'text.tie-spaced': eased(() => 'A tie must touch the note before it. Take the space out.'),
  'text.slur-unclosed': warning(() => 'This slur is never closed. Write ) after its last note.'),
  'text.slur-unopened': warning(() => 'No slur is open here. Write ( before its first note, or take this ) out.'),
  'text.broken-without-note': error(
    (what) => `${what} needs a note on both sides, in the same bar. Write the notes, or take the sign out.`,
  ),
  'text.broken-unequal': eased(
    (what) => `The standard gives ${what} no meaning between notes of different lengths. Write both lengths out instead.`,
  ),
  'text.tuplet-unfinished': warning(
    (what) => `The bar ends before this tuplet has its notes: ${what}. Write them, or say how many there are, as in (3:2:2.`,
  ),
  'text.lyrics-too-many': warning(
    () => 'There are more syllables than notes from here on. Join syllables with ~, or check the | and - signs.',
  ),
  'text.symbols-too-many': warning(() => 'There are more symbols than notes from here on. Take some out, or check the * and | signs.'),
  'text.part-unknown': warning(
    (what) => `No part of the tune is marked P:${what}, so it is left out. Mark it, or take the letter out of the order.`,
  ),
  'text.include-failed': warning((what) => what),
} satisfies Record<string, Kind>;

export type TextErrorCode = keyof typeof KINDS;

export const textErrorCodes = Object.keys(KINDS) as readonly TextErrorCode[];

/** The error of this code over from..to of its line. */
export function textError(code: TextErrorCode, strictness: Strictness, from: Offset, to: Offset, what = ''): TextError {
  const kind: Kind = KINDS[code];
  return { code, message: kind.says(what), span: { from, to }, severity: kind[strictness] };
}
