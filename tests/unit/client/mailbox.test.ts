// The mailbox of one between host and page.
import { describe, expect, it } from 'vitest';
import type { ToPage } from '../../../client/messages.ts';
import { makeMailbox } from '../../../client/src/preview/mailbox.ts';
import { seeded } from '../../support/random.ts';

/** Messages by what they say; the rest of them plays no part here. */
const of = (uri: string) => ({ uri, tune: 0, revision: { document: 1, settings: 1 } });
const scene = (name: string, plans: unknown = null): ToPage =>
  ({ kind: 'scene', scene: { ...of(name), plans, findings: [] } }) as unknown as ToPage;
const plan = (name: string): ToPage => ({ kind: 'plan', ...of(name), plans: [name], findings: [] }) as unknown as ToPage;
const caret = (offset: number): ToPage => ({ kind: 'caret', offset }) as unknown as ToPage;
const nothing: ToPage = { kind: 'nothing', message: 'none' };
const play: ToPage = { kind: 'play', action: 'toggle' };

function bed() {
  const sent: ToPage[] = [];
  return { sent, mailbox: makeMailbox((message) => void sent.push(message)) };
}

describe('the mailbox', () => {
  it('keeps all until the page is there, a scene and its plan as one picture', () => {
    const { sent, mailbox } = bed();
    mailbox.post(scene('a'));
    mailbox.post(plan('a'));
    expect([sent.length, mailbox.waiting]).toEqual([0, 1]);
    mailbox.ready();
    expect([sent, mailbox.waiting]).toEqual([[scene('a', ['a'])], 0]);
  });
  it('sends a scene without waiting for its plan, and the plan when the scene is painted', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.post(plan('a'));
    expect([sent, mailbox.waiting]).toEqual([[scene('a')], 1]);
    mailbox.painted();
    expect([sent, mailbox.waiting]).toEqual([[scene('a'), plan('a')], 0]);
  });
  it('keeps only the newest while the page paints, and always sends the last', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    for (let i = 0; i < 100; i++) mailbox.post(scene(String(i)));
    expect(sent).toEqual([scene('0')]);
    expect(mailbox.waiting).toBe(1);
    mailbox.painted();
    expect(sent).toEqual([scene('0'), scene('99')]);
    mailbox.painted();
    mailbox.painted();
    expect([sent.length, mailbox.waiting]).toEqual([2, 0]);
  });
  it('drops a plan when a newer scene comes, and one that comes for an older scene', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.post(plan('a'));
    mailbox.post(scene('b'));
    mailbox.post(plan('a'));
    expect(mailbox.waiting).toBe(1);
    mailbox.painted();
    mailbox.painted();
    expect(sent).toEqual([scene('a'), scene('b')]);
  });
  it('has at most one picture waiting, whatever comes in whatever order, and ends with the newest scene and its plan', () => {
    const random = seeded(5);
    for (let round = 0; round < 200; round++) {
      const { sent, mailbox } = bed();
      let newest = 0;
      let shown: unknown = null;
      const show = (): void => {
        for (const each of sent.splice(0)) shown = each.kind === 'plan' ? scene(each.uri, each.plans) : each;
      };
      const acts = [
        () => mailbox.post(scene(String(++newest))),
        () => mailbox.post(plan(String(Math.max(0, newest - random.below(2))))),
        () => mailbox.painted(),
        () => mailbox.ready(),
      ];
      for (let i = 0; i < 30; i++) {
        random.pick(acts)();
        expect(mailbox.waiting).toBeLessThanOrEqual(1);
        show();
      }
      mailbox.ready();
      mailbox.post(scene(String(++newest)));
      mailbox.post(plan(String(newest)));
      while (mailbox.waiting > 0) mailbox.painted();
      show();
      expect(shown).toEqual(scene(String(newest), [String(newest)]));
    }
  });
  it('sends the caret after the newest picture', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.post(scene('b'));
    mailbox.post(caret(1));
    mailbox.post(caret(2));
    expect(sent).toEqual([scene('a')]);
    mailbox.painted();
    expect(sent).toEqual([scene('a'), scene('b'), caret(2)]);
    mailbox.post(caret(3));
    expect(sent.at(-1)).toEqual(caret(2));
    mailbox.painted();
    expect(sent.at(-1)).toEqual(caret(3));
  });
  it('forgets pictures when there is nothing to show', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.post(scene('b'));
    mailbox.post(nothing);
    mailbox.painted();
    expect(sent).toEqual([scene('a'), nothing]);
  });
  it('says that there is nothing to a page that loads late', () => {
    const { sent, mailbox } = bed();
    mailbox.post(nothing);
    mailbox.ready();
    expect(sent).toEqual([nothing]);
  });
  it('lets small messages pass at once', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.post(play);
    expect(sent).toEqual([scene('a'), play]);
  });
  it('is free again after the page was loaded anew', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.ready();
    mailbox.post(scene('b'));
    expect(sent).toEqual([scene('a'), scene('b')]);
  });
});
