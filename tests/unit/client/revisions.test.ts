// Places of an older text carried into the present one.
import { describe, expect, it } from 'vitest';
import { makeRevisions } from '../../../client/src/preview/revisions.ts';

const span = { from: 10, to: 12 };

function carried(...changes: readonly { from: number; length: number; inserted: number }[]) {
  const revisions = makeRevisions();
  for (const [i, change] of changes.entries()) revisions.note('a', i + 2, [change]);
  return revisions.carry('a', span, 1, changes.length + 1);
}

describe('a place of an older text', () => {
  it('stays where nothing changed', () => expect(carried()).toEqual(span));
  it('moves with changes in front of it', () => {
    expect(carried({ from: 0, length: 0, inserted: 3 })).toEqual({ from: 13, to: 15 });
    expect(carried({ from: 2, length: 5, inserted: 1 }, { from: 0, length: 0, inserted: 1 })).toEqual({ from: 7, to: 9 });
    expect(carried({ from: 10, length: 0, inserted: 6 })).toEqual({ from: 16, to: 18 });
  });
  it('stays with changes behind it', () => expect(carried({ from: 12, length: 4, inserted: 0 })).toEqual(span));
  it('is given up when it was touched', () => {
    expect(carried({ from: 11, length: 1, inserted: 1 })).toBeNull();
    expect(carried({ from: 8, length: 3, inserted: 0 })).toBeNull();
    expect(carried({ from: 0, length: 20, inserted: 20 })).toBeNull();
  });
  it('heeds several changes of one version in their order', () => {
    const revisions = makeRevisions();
    revisions.note('a', 2, [
      { from: 20, length: 0, inserted: 1 },
      { from: 0, length: 0, inserted: 2 },
    ]);
    expect(revisions.carry('a', span, 1, 2)).toEqual({ from: 12, to: 14 });
  });
  it('is given up when a version between is unknown', () => {
    const revisions = makeRevisions();
    revisions.note('a', 3, []);
    expect(revisions.carry('a', span, 1, 3)).toBeNull();
    expect(revisions.carry('b', span, 1, 2)).toBeNull();
  });
  it('is given up when too old, and after the file is forgotten', () => {
    const revisions = makeRevisions();
    for (let version = 2; version <= 600; version++) revisions.note('a', version, []);
    expect(revisions.carry('a', span, 1, 600)).toBeNull();
    expect(revisions.carry('a', span, 590, 600)).toEqual(span);
    revisions.forget('a');
    expect(revisions.carry('a', span, 590, 600)).toBeNull();
  });
});
