// A score played out: repeats, endings and the order of parts; one written note gives as many events as it sounds.
import { add, compare, sub, ZERO } from './fraction.ts';
import { playedOrder } from './order.ts';
import type { Fraction, Played, PlayedBar, PlayedEvent, PlayedVoice, Score, ScoreNote, Voice } from './types.ts';

const played = new WeakMap<Score, Played>();

/** The tune as it sounds. The time of grace notes is not defined by the standard: they give no events (see `withGraces`). */
export function playOut(score: Score): Played {
  const known = played.get(score);
  if (known) return known;
  const voices = score.voices.map((voice) => playVoice(voice, score));
  const made: Played = { voices, tempos: playTempos(score, voices), end: latest(score, voices) };
  played.set(score, made);
  return made;
}

function playVoice(voice: Voice, score: Score): PlayedVoice {
  const byBar = notesByBar(voice);
  const order: PlayedBar[] = [];
  const events: PlayedEvent[] = [];
  let time = ZERO;
  let last = new Map<string, number>();
  for (const index of playedOrder(voice, score.partOrder)) {
    const bar = voice.bars[index]!;
    order.push({ bar: index, onset: time });
    const shift = sub(time, bar.onset);
    for (const note of byBar[index]!) last = playNote(note, add(note.onset, shift), events, last);
    time = add(time, bar.duration);
  }
  return { voice: voice.id, events, order };
}

const notesByBar = (voice: Voice): readonly ScoreNote[][] => {
  const byBar: ScoreNote[][] = voice.bars.map(() => []);
  for (const note of voice.notes) if (note.kind === 'note') byBar[note.bar]?.push(note);
  return byBar;
};

/** Adds a note's events; a head tied to the event that sounds until now lengthens it. `waiting` maps the heads to which such events are tied. */
function playNote(note: ScoreNote, onset: Fraction, events: PlayedEvent[], waiting: Map<string, number>): Map<string, number> {
  note.heads.forEach((head, index) => {
    const tiedFrom = head.tied ? waiting.get(`${note.id} ${index}`) : undefined;
    const before = tiedFrom === undefined ? undefined : events[tiedFrom];
    let at = events.length;
    if (before && compare(add(before.onset, before.duration), onset) === 0) {
      at = tiedFrom!;
      events[at] = { ...before, duration: add(before.duration, head.duration), last: note.id };
    } else events.push({ note: note.id, head: index, onset, duration: head.duration, midi: head.midi });
    if (head.tied) waiting.delete(`${note.id} ${index}`);
    if (head.tieTo) waiting.set(`${head.tieTo.note} ${head.tieTo.head}`, at);
  });
  return waiting;
}

const latest = (score: Score, voices: readonly PlayedVoice[]): Fraction =>
  voices.reduce((end: Fraction, { order }, i) => {
    const last = order.at(-1);
    const to = last ? add(last.onset, score.voices[i]!.bars[last.bar]!.duration) : ZERO;
    return compare(to, end) > 0 ? to : end;
  }, ZERO);

/** Tempos at each place where their text is reached, by the first voice's order. */
function playTempos(score: Score, voices: readonly PlayedVoice[]): Played['tempos'] {
  const order = voices[0]?.order ?? [];
  const found: { onset: Fraction; beat: Fraction; bpm: number }[] = [];
  const timed = score.tempos.filter((tempo) => tempo.beat !== null && tempo.bpm !== null);
  for (const { bar, onset } of order) {
    const { onset: from, duration } = score.voices[0]!.bars[bar]!;
    for (const tempo of timed) {
      const inside = sub(tempo.onset, from);
      if (compare(inside, ZERO) < 0 || compare(inside, duration) >= 0) continue;
      found.push({ onset: add(onset, inside), beat: tempo.beat!, bpm: tempo.bpm! });
    }
  }
  if (order.length === 0) for (const tempo of timed) found.push({ onset: ZERO, beat: tempo.beat!, bpm: tempo.bpm! });
  return found;
}
