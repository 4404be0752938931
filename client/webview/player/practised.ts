// How each file was practised last, for this page: what the page itself remembers, else what the host does.
import { type Practice, type Practices, practiceOf, usualPractice, withPractice } from '../../practice.ts';
import { post, readState, writeState } from '../host.ts';

export interface Practised {
  of(uri: string): Practice;
  keep(uri: string, practice: Practice): void;
  /** What the host remembers of a file. */
  recall(uri: string, practice: Practice): void;
}

export function makePractised(): Practised {
  let told: Practices = [];
  return {
    of: (uri) => practiceOf(readState().practices, uri) ?? practiceOf(told, uri) ?? usualPractice,
    keep(uri, practice) {
      writeState({ practices: withPractice(readState().practices, uri, practice) });
      post({ kind: 'practice', uri, practice });
    },
    recall(uri, practice) {
      told = withPractice(told, uri, practice);
    },
  };
}
