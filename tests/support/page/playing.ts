// A tune played from end to end with nothing added: what tests of the player vary from.
import type { PlayOptions } from '../../../client/webview/player/plan.ts';
import type { ScenePlayback } from '../../../server/src/engraving/index.ts';

export const plainly = ({ end }: ScenePlayback): PlayOptions => ({
  share: 1,
  clicks: 'none',
  countIn: 'none',
  stretch: { from: 0, to: end },
  bassVoices: ['1'],
  guide: 'none',
  chords: 'none',
  drone: 'none',
});
