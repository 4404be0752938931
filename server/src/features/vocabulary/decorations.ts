// Decorations (abc 2.1, section 4.14) with what they mean to a bass player.
import type { Entry } from './entry.ts';

/** Pins: fingers, strings and harmonics. */
export const pinDecorations: readonly Entry[] = [
  { word: '0', meaning: 'Open string.' },
  { word: '1', meaning: 'First finger.' },
  { word: '2', meaning: 'Second finger.' },
  { word: '3', meaning: 'Third finger.' },
  { word: '4', meaning: 'Fourth finger.' },
  { word: 'thumb', meaning: 'Thumb, pressed on the string (thumb position). Stop on pain; a teacher shows it first.' },
  { word: 'open', meaning: 'Open string; on a stopped pitch a natural harmonic.' },
  { word: 'sulG', meaning: 'This note on the G string.' },
  { word: 'sulD', meaning: 'This note on the D string.' },
  { word: 'sulA', meaning: 'This note on the A string.' },
  { word: 'sulE', meaning: 'This note on the E string.' },
  { word: 'sulB', meaning: 'This note on the B string, where the bass has one.' },
  { word: 'sulC', meaning: 'This note on the C string, where the bass has one.' },
];

/** Marks that change how a note is played. */
const playing: readonly Entry[] = [
  { word: '>', meaning: 'Accent.' },
  { word: 'accent', meaning: 'Accent.' },
  { word: 'emphasis', meaning: 'Accent.' },
  { word: 'slide', meaning: 'Slide: into this note from just below; inside a slur one pluck, the same finger sliding.' },
  { word: 'snap', meaning: 'Snap: the string hits the fingerboard.' },
  { word: 'plus', meaning: 'Plucked with the left hand.' },
  { word: '+', meaning: 'Plucked with the left hand.' },
  { word: 'tenuto', meaning: 'Full length.' },
  { word: 'wedge', meaning: 'Very short.' },
  { word: 'fermata', meaning: 'Hold.' },
  { word: 'invertedfermata', meaning: 'Hold, printed below.' },
  { word: 'upbow', meaning: 'Up-bow.' },
  { word: 'downbow', meaning: 'Down-bow.' },
  { word: 'breath', meaning: 'Breathing mark.' },
  { word: 'arpeggio', meaning: 'Chord rolled.' },
  { word: '5', meaning: 'Fifth finger; the bass has none.' },
];

const ornaments: readonly Entry[] = [
  { word: 'trill', meaning: 'Trill.' },
  { word: 'trill(', meaning: 'A long trill begins.' },
  { word: 'trill)', meaning: 'A long trill ends.' },
  { word: 'lowermordent', meaning: 'Lower mordent.' },
  { word: 'uppermordent', meaning: 'Upper mordent.' },
  { word: 'mordent', meaning: 'Lower mordent.' },
  { word: 'pralltriller', meaning: 'Upper mordent.' },
  { word: 'roll', meaning: 'Roll.' },
  { word: 'turn', meaning: 'Turn.' },
  { word: 'turnx', meaning: 'Turn with a stroke through it.' },
  { word: 'invertedturn', meaning: 'Turn from below.' },
  { word: 'invertedturnx', meaning: 'Turn from below with a stroke through it.' },
];

const dynamics: readonly Entry[] = [
  ...['pppp', 'ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'ffff', 'sfz'].map((word) => ({ word, meaning: 'Dynamic mark.' })),
  { word: 'crescendo(', meaning: 'Growing louder from here.' },
  { word: '<(', meaning: 'Growing louder from here.' },
  { word: 'crescendo)', meaning: 'Growing louder to here.' },
  { word: '<)', meaning: 'Growing louder to here.' },
  { word: 'diminuendo(', meaning: 'Growing softer from here.' },
  { word: '>(', meaning: 'Growing softer from here.' },
  { word: 'diminuendo)', meaning: 'Growing softer to here.' },
  { word: '>)', meaning: 'Growing softer to here.' },
];

const wayMarks: readonly Entry[] = [
  { word: 'segno', meaning: 'Sign to come back to.' },
  { word: 'coda', meaning: 'Coda.' },
  { word: 'D.S.', meaning: 'From the sign.' },
  { word: 'D.C.', meaning: 'From the beginning.' },
  { word: 'dacoda', meaning: 'To the coda.' },
  { word: 'dacapo', meaning: 'From the beginning.' },
  { word: 'fine', meaning: 'The end.' },
  { word: 'shortphrase', meaning: 'End of a short phrase.' },
  { word: 'mediumphrase', meaning: 'End of a middle phrase.' },
  { word: 'longphrase', meaning: 'End of a long phrase.' },
];

export const decorationEntries: readonly Entry[] = [...pinDecorations, ...playing, ...ornaments, ...dynamics, ...wayMarks];

/** One-letter signs that the standard gives a meaning (section 4.14). */
export const shorthandEntries: readonly Entry[] = [
  { word: '.', meaning: 'Staccato.' },
  { word: '~', meaning: 'Roll.' },
  { word: 'H', meaning: 'Fermata.' },
  { word: 'L', meaning: 'Accent.' },
  { word: 'M', meaning: 'Lower mordent.' },
  { word: 'O', meaning: 'Coda.' },
  { word: 'P', meaning: 'Upper mordent.' },
  { word: 'S', meaning: 'Segno.' },
  { word: 'T', meaning: 'Trill.' },
  { word: 'u', meaning: 'Up-bow.' },
  { word: 'v', meaning: 'Down-bow.' },
];
