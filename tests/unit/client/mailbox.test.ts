// The mailbox of one between host and page.
import { describe, expect, it } from 'vitest';
import type { ToPage } from '../../../client/messages.ts';
import { makeMailbox } from '../../../client/src/preview/mailbox.ts';

/** Messages by what they say; the rest of them plays no part here. */
const scene = (name: string): ToPage => ({ kind: 'scene', scene: { title: name } }) as unknown as ToPage;
const plan = (name: string): ToPage => ({ kind: 'plan', uri: name }) as unknown as ToPage;
const caret = (offset: number): ToPage => ({ kind: 'caret', offset }) as unknown as ToPage;
const nothing: ToPage = { kind: 'nothing', message: 'none' };
const play: ToPage = { kind: 'play', action: 'toggle' };

function bed() {
  const sent: ToPage[] = [];
  return { sent, mailbox: makeMailbox((message) => void sent.push(message)) };
}

describe('the mailbox', () => {
  it('keeps all until the page is there', () => {
    const { sent, mailbox } = bed();
    mailbox.post(scene('a'));
    mailbox.post(plan('a'));
    expect([sent.length, mailbox.waiting]).toEqual([0, 2]);
    mailbox.ready();
    expect(sent).toEqual([scene('a')]);
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
  it('drops a plan when a newer scene comes, and sends one after its scene', () => {
    const { sent, mailbox } = bed();
    mailbox.ready();
    mailbox.post(scene('a'));
    mailbox.post(plan('a'));
    mailbox.post(scene('b'));
    mailbox.post(plan('b'));
    mailbox.painted();
    mailbox.painted();
    expect(sent).toEqual([scene('a'), scene('b'), plan('b')]);
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
    mailbox.painted();
    expect(sent).toEqual([scene('a'), scene('b'), caret(2)]);
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
