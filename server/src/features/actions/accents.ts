// Puts accents on the backbeats of the bass parts.
import { accentEdits } from '../../arrangement/index.ts';
import type { PartStage } from '../../arrangement/types.ts';
import type { Edit } from '../../text/span.ts';
import { inOrder } from '../shared/edits.ts';
import type { Action } from './action.ts';

export const accents: Action<'part'> = {
  id: 'accents',
  needs: 'part',
  offers: (stage) => (backbeats(stage).length === 0 ? [] : [{ variant: 'backbeat', title: 'Accent the backbeats' }]),
  edits: (stage) => backbeats(stage),
};

/** Nothing is left to do where all of them are accented. */
const backbeats = (stage: PartStage): readonly Edit[] =>
  inOrder(stage.parts.flatMap((part) => (part.kind === 'bass' ? accentEdits(stage, part) : [])));
