// `compare --format html`: both states side by side by bar, changed notes marked, nothing fetched, nothing run, open to all readers.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { commands } from '../../../server/src/cli/commands/index.ts';
import { runCommandLine } from '../../../server/src/cli/run.ts';
import { memoryIo } from '../../support/memory-io.ts';
import { browserPath, startBrowser } from '../../support/page/browser.ts';

const tune = (body: string, title = 'Air') => `X:1\nT:${title}\nM:4/4\nL:1/4\nQ:1/4=100\nK:A clef=bass\n${body}\n`;
const base = tune('P:A\nA,B,CD|(A,B,)C2|\nP:B\nE,F,G,A,|A,4|]');

async function page(old: string, next: string) {
  const io = memoryIo({ 'old.abc': old, 'new.abc': next });
  const code = await runCommandLine(['compare', 'old.abc', 'new.abc', '--format', 'html'], io, commands, '0');
  const { document } = parseHTML(io.said.out);
  const rows = [...document.querySelectorAll('tbody tr')].filter((row) => row.querySelector('th[scope=row]') !== null);
  const told = rows.map((row) => ({
    bar: row.querySelector('th')!.textContent,
    changed: row.classList.contains('changed'),
    marks: [...row.querySelectorAll('td')].slice(0, 2).map((cell) => cell.querySelectorAll('.mark').length),
    words: row.querySelector('td:last-child')!.textContent,
  }));
  return { code, html: io.said.out, document, told };
}

describe('the page', () => {
  it('has a row a bar, by part, and marks the notes that changed on both sides', async () => {
    const { code, document, told } = await page(base, base.replace('E,F,G,A,', 'E,F,G,B,').replace('CD|', 'C!>!D|'));
    expect(code).toBe(1);
    expect([...document.querySelectorAll('th[scope=rowgroup]')].map((head) => head.textContent)).toEqual(['Part A', 'Part B']);
    expect(told.map(({ bar }) => bar)).toEqual(['A 1', 'A 2', 'B 1', 'B 2']);
    expect(told[0]).toMatchObject({ changed: true, marks: [1, 1], words: 'accent on D added' });
    expect(told[1]).toMatchObject({ changed: false, marks: [0, 0], words: '' });
    expect(told[2]!.words).toContain('notes E F# G# B, were E F# G# A');
    const [before, after] = [...document.querySelectorAll('tbody tr.changed svg[role=img]')].map((svg) => svg.getAttribute('aria-label'));
    expect(before).toBe('Bar A 1 before: A B C# D');
    expect(after).toBe('Bar A 1 after: A B C# D');
  });
  it('shows each bar from its own system, as wide as the bar', async () => {
    const { document } = await page(base, base.replace('A,4|]', '!>!A,4|]'));
    const ids = new Set([...document.querySelectorAll('defs g')].map((system) => `#${system.id}`));
    const pictures = [...document.querySelectorAll('svg[role=img]')];
    expect(pictures).toHaveLength(8);
    for (const picture of pictures) {
      expect(ids.has(picture.querySelector('use')!.getAttribute('href')!)).toBe(true);
      expect(Number(picture.getAttribute('viewBox')!.split(' ')[2])).toBeGreaterThan(30);
    }
  });
  it('puts a bar that is new or gone in its place, with nothing on the other side', async () => {
    const { told, html } = await page(base, base.replace('(A,B,)C2|', '(A,B,)C2|D4|').replace('|A,4|]', '|]'));
    expect(told.map(({ bar, words }) => `${bar} ${words}`)).toEqual(['A 1 ', 'A 2 ', 'A 3 bar added', 'B 1 ', 'B 2 bar removed']);
    // A failed match must not print the fonts.
    expect(['No such bar before.', 'No such bar any more.'].filter((words) => !html.includes(words))).toEqual([]);
  });
  it('says so where nothing changed, and where a tune came or went', async () => {
    expect((await page(base, base)).html.includes('Nothing changed.')).toBe(true);
    expect(/Tune added\.[\s\S]*Tune removed\./.test((await page(base, tune('A,4|]', 'Other'))).html)).toBe(true);
  });
  it('fetches and runs nothing, and shows text of a tune as text', async () => {
    const { html, document } = await page(base, tune('A,4|]', '<img src=x onerror=alert(1)>'));
    expect([...document.querySelectorAll('h2')].map((head) => head.textContent)).toEqual(['<img src=x onerror=alert(1)>', 'Air']);
    const reaching = html.match(/https?:|<script|<[^>]*\bsrc=|@import|<link|url\((?!data:)/gi);
    expect(reaching).toBeNull();
    expect(html.includes("default-src 'none'")).toBe(true);
  });
});

it.skipIf(browserPath === null)(
  'has nothing that stands in a reader’s way',
  async () => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const { html } = await page(base, base.replace('E,F,G,A,', 'E,F,G,B,'));
    const browser = await startBrowser();
    const shown = await browser.newPage({ viewport: { width: 1200, height: 800 } });
    await shown.setContent(html);
    const session = await shown.context().newCDPSession(shown);
    await session.send('Runtime.evaluate', { expression: axe });
    const violations = await shown.evaluate(async () => {
      const { axe: reader } = window as unknown as { axe: { run(): Promise<{ violations: { id: string }[] }> } };
      return (await reader.run()).violations.map(({ id }) => id);
    });
    await browser.close();
    expect(violations).toEqual([]);
  },
  60_000,
);
