// Numbers of the text before on notes that an edit left alone, until the plan of the present text is there.
import { describe, expect, it } from 'vitest';
import type { Plan, Scene } from '../../../client/messages.ts';
import { carriedFindings, carriedPlans } from '../../../client/webview/carried.ts';
import { sceneOf } from '../../support/page/scenes.ts';
import { seeded } from '../../support/random.ts';

const header = 'X:1\nM:4/4\nL:1/4\nK:G clef=bass\n';
const late = (text: string): Scene => ({ ...sceneOf(text, 0, 2), plans: null });

/** Each note with a place, as the text that it stands on and the place; notes without one are left out. */
const placesOn = (text: string, plans: readonly Plan[]): string[] =>
  plans.flatMap((plan) =>
    plan.notes.map(({ from, to, places }) => `${text.slice(from, to)} ${places.map(({ string, stop }) => `${string}${stop}`).join('+')}`),
  );

function edited(before: string, now: string): string[] {
  const scene = sceneOf(header + before, 0);
  return placesOn(header + now, carriedPlans(scene, scene.plans!, late(header + now)));
}

describe('plans carried over an edit', () => {
  it('stay on the notes before and behind it, and say nothing of what is new', () => {
    expect(edited('E,,F,,G,,|F,,|', 'E,,F,,G,,A,,|F,,|')).toEqual(['E,, E0', 'F,, E2', 'G,, E3', 'F,, E2']);
    expect(edited('E,,F,,G,,|F,,|', 'E,,F,,|F,,|')).toEqual(['E,, E0', 'F,, E2', 'F,, E2']);
    expect(edited('E,,F,,G,,|F,,|', 'G,,F,,G,,|F,,|')).toEqual(['F,, E2', 'G,, E3', 'F,, E2']);
  });
  it('leave a note whose pitch or pin was changed, wherever the sign for it stands', () => {
    // The key sharpens F; a natural holds to the end of its bar.
    expect(edited('E,,F,,F,,|F,,|', 'E,,=F,,F,,|^F,,|')).toEqual(['E,, E0', '^F,, E2']);
    expect(edited('E,,F,,G,,|F,,|', 'E,,F,,!4!G,,|F,,|')).toEqual(['E,, E0', 'F,, E2', 'F,, E2']);
    expect(edited('E,,F,,G,,|', 'E,,F,,"Am"(G,,|')).toEqual(['E,, E0', 'F,, E2', 'G,, E3']);
  });
  it('go over several edits before a plan comes', () => {
    const first = sceneOf(`${header}E,,F,,G,,|`, 0);
    const second = late(`${header}E,,E,,F,,G,,|`);
    const third = `${header}E,,E,,F,,G,,E,,|`;
    const carried = carriedPlans(second, carriedPlans(first, first.plans!, second), late(third));
    expect(placesOn(third, carried)).toEqual(['E,, E0', 'F,, E2', 'G,, E3']);
  });
  it('know voices apart, and nothing of another tune or file', () => {
    const voices = (music: string) => `X:1\nM:4/4\nL:1/4\nV:1 clef=bass\nV:2 clef=bass\nK:G\n[V:1]E,,F,,|\n[V:2]${music}|\n`;
    const scene = sceneOf(voices('G,,G,,'), 0);
    const now = voices('F,,G,,');
    expect(placesOn(now, carriedPlans(scene, scene.plans!, late(now)))).toEqual(['E,, E0', 'F,, E2', 'G,, E3']);
    expect(carriedPlans(scene, scene.plans!, { ...late(now), uri: 'file:///other.abc' })).toEqual([]);
    expect(carriedPlans(scene, scene.plans!, { ...late(now), tune: 1 })).toEqual([]);
  });
  it('never put a number on a note of another pitch, whatever is edited', () => {
    const random = seeded(3);
    const pieces = ['E,,', 'F,,', 'G,,', '^', '|', '(', ')', '{F,,}', '[E,,A,,]', '-', '!4!', '"Am"', '\n'];
    let text = `${header}E,,F,,G,,F,,|G,,-G,,E,,F,,|`;
    for (let i = 0; i < 60; i++) {
      const at = header.length + random.below(text.length - header.length);
      const next = text.slice(0, at) + random.pick(pieces) + text.slice(at + random.below(2));
      const scene = sceneOf(text, 0);
      const now = late(next);
      const written = (of: Scene, id: number) =>
        of.notes
          .find((note) => note.id === id)!
          .heads.map((head) => head.written)
          .join();
      const carried = carriedPlans(scene, scene.plans!, now).flatMap(({ notes }) => notes);
      const places = new Set(
        scene.plans!.flatMap(({ notes }) => notes.map((note) => `${written(scene, note.id)} ${JSON.stringify(note.places)}`)),
      );
      for (const note of carried) expect(places).toContain(`${written(now, note.id)} ${JSON.stringify(note.places)}`);
      expect(new Set(carried.map(({ id }) => id)).size).toBe(carried.length);
      text = next;
    }
  });
});

describe('findings carried over an edit', () => {
  const wide = '(!sulG!^G,!sulG!B,)';
  const early = (text: string): Scene => {
    const scene = late(text);
    return { ...scene, findings: scene.findings.filter(({ rests }) => rests === 'text') };
  };
  const carried = (before: string, now: Scene): readonly string[] => {
    const scene = sceneOf(header + before, 0);
    return carriedFindings(scene, scene.findings, now).map(
      ({ code, from, to }) => `${code} ${now.engraving.text.slice(from, to).replace(/`+/, ' ')}`,
    );
  };
  it('stay on passages that were not edited, and move with them', () => {
    expect(carried(`G,A,${wide}|E,,4|`, early(`${header}G,A,${wide}|E,,3F,,|`))).toEqual(['reach.too-wide ^G, B,']);
    const now = early(`${header}G,G,A,${wide}|E,,4|`);
    expect(carried(`G,A,${wide}|E,,4|`, now)).toHaveLength(1);
    const before = sceneOf(`${header}G,A,${wide}|E,,4|`, 0);
    const [one] = carriedFindings(before, before.findings, now);
    expect(one?.notes).toEqual(now.notes.slice(3, 5).map(({ id }) => id));
  });
  it('go with a note of theirs that was edited, and say nothing of what rests on the text', () => {
    expect(carried(`G,A,${wide}|E,,4|`, early(`${header}G,A,(!sulG!^G,!sulG!A,)|E,,4|`))).toEqual([]);
    expect(carried('G,A,B,|E,,4|', early(`${header}G,A,B,|E,,3F,,|`))).toEqual([]);
  });
  it('give way to those of a text that was judged before', () => {
    expect(carried(`G,A,${wide}|E,,4|`, late(`${header}G,A,${wide}|E,,3F,,|`))).toEqual([]);
  });
});
