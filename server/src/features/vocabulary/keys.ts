// Keys, modes, clefs, meters, unit lengths and tempos as they are written after K: V: M: L: Q: and R:.
import type { Entry } from './entry.ts';

/** Keys in the order of the circle of fifths from the ones a bass likes: D, G and A have open strings on their main notes. */
export const keyEntries: readonly Entry[] = [
  { word: 'D', meaning: 'two sharps; D, A, G and E are open strings' },
  { word: 'G', meaning: 'one sharp; G, D, A and E are open strings' },
  { word: 'A', meaning: 'three sharps; A, D and E are open strings' },
  { word: 'C', meaning: 'no sharps or flats' },
  { word: 'E', meaning: 'four sharps' },
  { word: 'F', meaning: 'one flat' },
  { word: 'Bb', meaning: 'two flats' },
  { word: 'Eb', meaning: 'three flats' },
  { word: 'Ab', meaning: 'four flats' },
  { word: 'B', meaning: 'five sharps' },
  { word: 'Am', meaning: 'A minor, no sharps or flats' },
  { word: 'Em', meaning: 'E minor, one sharp' },
  { word: 'Bm', meaning: 'B minor, two sharps' },
  { word: 'Dm', meaning: 'D minor, one flat' },
  { word: 'Gm', meaning: 'G minor, two flats' },
  { word: 'Cm', meaning: 'C minor, three flats' },
  { word: 'Fm', meaning: 'F minor, four flats' },
  { word: 'F#m', meaning: 'F sharp minor, three sharps' },
  { word: 'C#m', meaning: 'C sharp minor, four sharps' },
  { word: 'Ador', meaning: 'A Dorian, one sharp' },
  { word: 'Ddor', meaning: 'D Dorian, no sharps or flats' },
  { word: 'Edor', meaning: 'E Dorian, two sharps' },
  { word: 'Gdor', meaning: 'G Dorian, one flat' },
  { word: 'Amix', meaning: 'A Mixolydian, two sharps' },
  { word: 'Dmix', meaning: 'D Mixolydian, one sharp' },
  { word: 'Emix', meaning: 'E Mixolydian, three sharps' },
  { word: 'Gmix', meaning: 'G Mixolydian, no sharps or flats' },
  { word: 'none', meaning: 'no key signature' },
  { word: 'Hp', meaning: 'Highland pipes: F and C sharp' },
];

export const modeEntries: readonly Entry[] = [
  { word: 'major', meaning: 'The usual major scale.' },
  { word: 'minor', meaning: 'Natural minor.' },
  { word: 'dor', meaning: 'Dorian: minor with a raised sixth.' },
  { word: 'mix', meaning: 'Mixolydian: major with a lowered seventh.' },
  { word: 'phr', meaning: 'Phrygian: minor with a lowered second.' },
  { word: 'lyd', meaning: 'Lydian: major with a raised fourth.' },
  { word: 'loc', meaning: 'Locrian.' },
  { word: 'exp', meaning: 'Only the accidentals that follow.' },
];

export const clefEntries: readonly Entry[] = [
  { word: 'clef=bass', meaning: 'Bass part at written pitch; sounds an octave lower.' },
  { word: 'clef=bass-8', meaning: 'Bass part; the sounding octave is said to be lowered already.' },
  { word: 'clef=tenor', meaning: 'Bass part in tenor clef.' },
  { word: 'clef=treble', meaning: 'Melody in treble clef.' },
  { word: 'clef=alto', meaning: 'Alto clef.' },
];

export const propertyEntries: readonly Entry[] = [
  { word: 'name=', meaning: 'Name printed before the first staff.' },
  { word: 'snm=', meaning: 'Short name printed before later staves.' },
  { word: 'transpose=', meaning: 'Semitones by which the sound is moved.' },
  { word: 'octave=', meaning: 'Octaves by which the written notes are moved.' },
  { word: 'stafflines=', meaning: 'Number of lines of the staff.' },
  { word: 'stem=', meaning: 'Direction of stems: up, down, auto.' },
];

export const meterEntries: readonly Entry[] = [
  { word: 'C|', meaning: 'Cut time, two half notes: reels and breakdowns.' },
  { word: '4/4', meaning: 'Four quarter notes: hornpipes.' },
  { word: 'C', meaning: 'Common time, as 4/4.' },
  { word: '2/4', meaning: 'Two quarter notes: polkas.' },
  { word: '3/4', meaning: 'Three quarter notes: waltzes.' },
  { word: '6/8', meaning: 'Two dotted quarter notes: jigs.' },
  { word: '9/8', meaning: 'Three dotted quarter notes: slip jigs.' },
  { word: '12/8', meaning: 'Four dotted quarter notes: slides.' },
  { word: '2/2', meaning: 'Two half notes.' },
  { word: '3/2', meaning: 'Three half notes: old hornpipes.' },
  { word: 'none', meaning: 'Free meter.' },
];

export const unitEntries: readonly Entry[] = [
  { word: '1/8', meaning: 'A letter is an eighth note.' },
  { word: '1/4', meaning: 'A letter is a quarter note.' },
  { word: '1/16', meaning: 'A letter is a sixteenth note.' },
];

/** Dance tempos in half notes or dotted quarters a minute (common practice: slow to learn, 108 to 120 to dance). */
export const tempoEntries: readonly Entry[] = [
  { word: '1/2=60', meaning: 'Reel, slow, to learn it.' },
  { word: '1/2=80', meaning: 'Reel, easy.' },
  { word: '1/2=100', meaning: 'Reel, at a session.' },
  { word: '1/2=116', meaning: 'Reel, to dance to.' },
  { word: '1/4=108', meaning: 'Waltz.' },
  { word: '3/8=96', meaning: 'Jig, easy.' },
  { word: '3/8=116', meaning: 'Jig, to dance to.' },
];

export const rhythmEntries: readonly Entry[] = [
  'reel',
  'breakdown',
  'hornpipe',
  'jig',
  'slip jig',
  'polka',
  'waltz',
  'march',
  'strathspey',
  'slide',
  'slow air',
  'schottische',
  'rag',
].map((word) => ({ word, meaning: 'Kind of tune.' }));
