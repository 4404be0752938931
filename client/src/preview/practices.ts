// How the files of a workspace were practised last, kept by the editor from one session to the next.
import type { Memento } from 'vscode';
import { type Practice, practiceOf, practicesFrom, withPractice } from '../../practice.ts';

const remembered = 'bullfiddle.practice';

export interface PracticeStore {
  of(uri: string): Practice | null;
  keep(uri: string, practice: Practice): void;
}

export function makePracticeStore(memory: Memento): PracticeStore {
  const all = () => practicesFrom(memory.get(remembered));
  return {
    of: (uri) => practiceOf(all(), uri),
    keep: (uri, practice) => void memory.update(remembered, withPractice(all(), uri, practice)),
  };
}
