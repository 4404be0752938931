// Writes the computed fingering of the whole tune into the text.
import { inkEdits } from '../../arrangement/index.ts';
import type { Action } from './action.ts';

export const ink: Action<'plan'> = {
  id: 'ink',
  needs: 'plan',
  offers(stage) {
    if (stage.fingered.length === 0) return [];
    return [
      { variant: 'changes', title: 'Write fingers and strings where they change' },
      { variant: 'all', title: 'Write fingers and strings at every note' },
      { variant: 'lines', title: 'Write fingers and strings in symbol lines' },
    ];
  },
  edits(stage, _selection, variant) {
    return inkEdits(
      stage,
      variant === 'lines' ? { density: 'all', form: 'lines' } : { density: variant === 'all' ? 'all' : 'changes', form: 'inline' },
    );
  },
};
