// Tunes and fonts ready for handouts.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readBook } from '../../server/src/abc/index.ts';
import { defaultConfig, planStage } from '../../server/src/arrangement/index.ts';
import { prepare } from '../../server/src/engraving/index.ts';
import { makeTables } from '../../server/src/fingering/index.ts';
import {
  type ExportOptions,
  type FontBook,
  type FontFiles,
  flowing,
  fontNames,
  type HandoutTune,
  type MadeSheet,
  makeSheet,
  type PracticeOptions,
} from '../../server/src/handout/index.ts';
import { playOut } from '../../server/src/score/index.ts';

const root = join(import.meta.dirname, '../..');
const tables = makeTables(8 * 1024 * 1024);

const known = new Map<string, readonly HandoutTune[]>();

/** Every tune of a book, fingered; made once a text. */
export function handoutTunes(text: string): readonly HandoutTune[] {
  const made = known.get(text) ?? read(text);
  known.set(text, made);
  return made;
}

function read(text: string): readonly HandoutTune[] {
  const book = readBook(text);
  return book.tunes.map((_, index) => {
    const { score, fingered } = planStage(book, index, defaultConfig, tables);
    return { score, played: playOut(score), engraving: prepare(book, index), plans: fingered.map(({ plan }) => plan) };
  });
}

export const fontFiles = Object.fromEntries(
  fontNames.map((name) => [name, new Uint8Array(readFileSync(join(root, 'media/fonts', `${name}.ttf`)))]),
) as FontFiles;

export const look: ExportOptions = {
  paper: 'a4',
  density: 'changes',
  rhythm: 'none',
  credit: { by: 'A studio', version: 'abc1234', date: '2026-01-31' },
};
export const practice: PracticeOptions = { speed: 1, countIn: 1, click: 'off', register: 'as-sounding' };

/** The sheet of tunes, one below the other. */
export const madeSheet = (tunes: readonly HandoutTune[], fonts: FontBook, options: ExportOptions = look): MadeSheet =>
  makeSheet({ title: 'Book', front: null, tunes: flowing(tunes), fonts, options, told: () => {} });

export const demoBook = (name: string): string => readFileSync(join(root, 'media/demo', `${name}.abc`), 'utf8');
export const demoNames = ['ferrymans-dare', 'lamplighters-ladder', 'nettle-fair', 'orrins-lantern', 'towpath-breakdown'] as const;

/** Two endings, a pickup, hammer and pull, a slide, accents, words, chords, a tuplet, a tie, a low and a high note, letters of three scripts. */
export const fullTune = `X:1
T:Žluť a σειρά, Широка
C:Čeněk Ω
S:a notebook
M:4/4
L:1/8
Q:1/4=96
K:G clef=bass
P:A
|:D,2|"G"G,2 (G,A,) "C7"!>!C2 E,,2|w
w:la- lo, we go a- down
"D/F#"(3D,E,F, G,4-G,2|1 "Em"(A,G,) B,,2 E,4 :|2 "G"!slide!B,2 z2 G,4|]
`.replace('E,,2|w\n', 'E,,2|\n');
