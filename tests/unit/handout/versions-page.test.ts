// A tune's low and high version side by side: a row a bar by part and number, each bar from its own system, nothing fetched or run.
import { readFileSync } from 'node:fs';
import { parseHTML } from 'linkedom';
import { expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { defaultConfig, pairVersions, planStage, versionOf } from '../../../server/src/arrangement/index.ts';
import { makeTables } from '../../../server/src/fingering/index.ts';
import { openFonts, versionsPage } from '../../../server/src/handout/index.ts';
import { fontFiles, handoutTunes } from '../../support/handout.ts';

const fonts = openFonts(fontFiles);
const tables = makeTables(8 * 1024 * 1024);

function page(text: string) {
  const book = readBook(text);
  const stages = book.tunes.map((_, i) => planStage(book, i, defaultConfig, tables));
  const [low, high] = ['low', 'high'].map((kind) => stages.findIndex((stage) => versionOf(stage)?.version === kind)) as [number, number];
  const tunes = handoutTunes(text);
  const column = (at: number) => ({ name: stages[at]!.score.title, tune: tunes[at]! });
  const html = versionsPage('Both', column(low), column(high), pairVersions(stages[low]!, stages[high]!), fonts);
  const { document } = parseHTML(html);
  const rows = [...document.querySelectorAll('tr')].filter((row) => row.querySelector('th[scope=row]') !== null);
  return {
    html,
    heads: [...document.querySelectorAll('th[scope=col]')].map((head) => head.textContent),
    parts: [...document.querySelectorAll('th[scope=colgroup]')].map((head) => head.textContent),
    rows: rows.map((row) => [row.querySelector('th')!.textContent, row.querySelectorAll('svg[role=img]').length]),
  };
}

const demo = readFileSync(new URL('../../../media/demo/ferrymans-dare.abc', import.meta.url), 'utf8');
const small = (low: string, high: string) =>
  [
    ['low', low],
    ['high', high],
  ]
    .map(([kind, body], i) => `X:${i + 1}\nT:Air (${kind})\nI:bullfiddle tune=air version=${kind}\nM:4/4\nL:1/4\nK:D clef=bass\n${body}\n`)
    .join('\n');

it('has both versions of a demo tune, a picture a bar on each side', () => {
  const { rows, heads, html } = page(demo);
  expect(rows.length).toBeGreaterThan(15);
  for (const [name, pictures] of rows) expect([name, pictures]).toEqual([name, 2]);
  expect(heads.map((head) => /Bar|low|high/i.exec(head ?? '')?.[0].toLowerCase())).toEqual(['bar', 'low', 'high']);
  expect(/<script|<link|src=/.test(html)).toBe(false);
});
it('keeps bars in step by part and number where one side has a bar more', () => {
  const { rows, parts, html } = page(small('P:A\nD,4|E,4|\nP:B\nF,4|', 'P:A\nD4|\nP:B\nF4|G4|'));
  expect(parts).toEqual(['Part A', 'Part B']);
  expect(rows).toEqual([
    ['A 1', 2],
    ['A 2', 1],
    ['B 1', 2],
    ['B 2', 1],
  ]);
  expect(html.split('No such bar.')).toHaveLength(3);
});
it('escapes what a tune says', () => {
  const { html } = page(small('D,4|', 'D4|').replace('Air (low)', '<b>Air</b> (low)'));
  expect(html.includes('<b>Air')).toBe(false);
});
