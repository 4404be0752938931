// version.stale: the source of a made version has changed since; one finding a part.
import { namedSections, type PartState, sourceOf, startOf, statesOf } from '../arrangement/index.ts';
import type { Check, Finding } from './check.ts';
import { finding } from './shared/finding.ts';

export const versionStale: Check<'part'> = {
  codes: ['version.stale'],
  needs: 'part',
  severity: 'warning',
  find(stage) {
    const source = sourceOf(stage.siblings);
    const voice = stage.score.voices[0];
    const states = source === null ? null : statesOf(source, stage);
    if (states === null || voice === undefined) return [];
    return namedSections(voice).flatMap((section): readonly Finding[] => {
      const message = said(section.name, states.get(section.name));
      return message === null ? [] : [finding('version.stale', 'warning', startOf(voice, section), message)];
    });
  },
};

function said(part: string, state: PartState | undefined): string | null {
  switch (state) {
    case 'stale':
      return `The source of part ${part} has changed since this was made. Make it again with arrange --update.`;
    case 'conflict':
      return `The source of part ${part} has changed, and this part was changed by hand: an update will leave it. Bring it in line by hand, or delete the part and its name in from= to have it made again.`;
    case 'clean':
    case 'edited':
    case undefined:
      return null;
  }
}
