// Suggests chords over a melody that has none, as text with a question mark; takes the suggestions out again, or keeps them as chord symbols.
import { chordsOf, settleSuggestions, suggestionEdits } from '../../arrangement/index.ts';
import type { Action } from './action.ts';

export const suggestedChords: Action<'part'> = {
  id: 'suggest-chords',
  needs: 'part',
  offers(stage) {
    const chords = stage.score.voices.flatMap(chordsOf);
    if (chords.some((chord) => chord.suggested))
      return [
        { variant: 'remove', title: 'Remove the suggested chords' },
        { variant: 'keep', title: 'Keep the suggested chords as chord symbols' },
      ];
    const bare = stage.parts[0]?.kind === 'melody' && chords.length === 0 && stage.score.voices[0]!.notes.length > 0;
    return bare ? [{ variant: 'suggest', title: 'Suggest chords over the melody (marked with ?)' }] : [];
  },
  edits: (stage, _selection, variant) =>
    variant === 'suggest' ? suggestionEdits(stage) : settleSuggestions(stage, variant === 'keep' ? 'keep' : 'remove'),
};
