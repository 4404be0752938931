// What the tests do to the page in a browser: give it messages, read what it posts, audit it.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import type { FromPage, Look, Scene, ToPage } from '../../../client/messages.ts';

interface PageWindow {
  readonly posted: FromPage[];
  send(message: ToPage): void;
}

export const send = (page: Page, message: ToPage): Promise<void> =>
  page.evaluate((each) => (window as unknown as PageWindow).send(each), message);

/** All messages of a kind that the page has posted. */
export const posted = <K extends FromPage['kind']>(page: Page, kind: K) =>
  page.evaluate((wanted) => (window as unknown as PageWindow).posted.filter((each) => each.kind === wanted), kind) as Promise<
    Extract<FromPage, { kind: K }>[]
  >;

const usualLook: Look = { density: 'all', layout: 'stacked', follow: 'mouse' };

/** Resolves when the page says that the scene stands on the screen. */
export async function show(page: Page, scene: Scene, look: Look = usualLook): Promise<void> {
  await send(page, { kind: 'scene', scene, look });
  await page.waitForFunction(
    (version) => (window as unknown as PageWindow).posted.some((each) => each.kind === 'painted' && each.revision.document === version),
    scene.revision.document,
  );
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe-core finds in the page as it stands: a rule and the first element that breaks it. */
export async function violationsIn(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: axe });
  await session.detach();
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } };
    return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  });
}
