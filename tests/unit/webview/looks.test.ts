// How the page looks in each kind of theme and where the system chooses the colours, at once and twice the size: nothing in a reader's way, all to be read.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SceneFinding } from '../../../server/src/engraving/types.ts';
import { posted, send, show, violationsIn } from '../../support/page/acting.ts';
import { browserPath, openPage, startBrowser } from '../../support/page/browser.ts';
import { sceneOf } from '../../support/page/scenes.ts';

interface Kind {
  /** Classes that the editor gives the body. */
  readonly classes: readonly string[];
  /** The editor's colours, as its default theme of this kind has them. */
  readonly colours: Readonly<Record<string, string>>;
  readonly media?: { readonly forcedColors: 'active'; readonly colorScheme: 'dark' | 'light' };
}

const highContrastDark: Kind = {
  classes: ['vscode-high-contrast'],
  colours: {
    'editor-foreground': '#ffffff',
    'editor-background': '#000000',
    focusBorder: '#f38518',
    contrastActiveBorder: '#f38518',
    'editorError-foreground': '#f48771',
    'editorWarning-foreground': '#ffd370',
    'editorInfo-foreground': '#3794ff',
    'input-border': '#6fc3df',
    'input-foreground': '#ffffff',
    'input-background': '#000000',
    'editorWidget-background': '#0c141f',
  },
};
const highContrastLight: Kind = {
  classes: ['vscode-high-contrast', 'vscode-high-contrast-light'],
  colours: {
    'editor-foreground': '#292929',
    'editor-background': '#ffffff',
    focusBorder: '#006bbd',
    contrastActiveBorder: '#006bbd',
    'editorError-foreground': '#b5200d',
    'editorWarning-foreground': '#895503',
    'editorInfo-foreground': '#1a85ff',
    'input-border': '#0f4a85',
    'input-foreground': '#292929',
    'input-background': '#ffffff',
    'editorWidget-background': '#ffffff',
  },
};
const kinds: Readonly<Record<string, Kind>> = {
  'no theme': { classes: [], colours: {} },
  light: {
    classes: ['vscode-light'],
    colours: {
      'editor-foreground': '#3b3b3b',
      'editor-background': '#ffffff',
      focusBorder: '#005fb8',
      'editorError-foreground': '#e51400',
      'editorWarning-foreground': '#bf8803',
      'editorInfo-foreground': '#1a85ff',
      'input-border': '#cecece',
      'input-foreground': '#3b3b3b',
      'input-background': '#ffffff',
      'editorWidget-background': '#f8f8f8',
    },
  },
  dark: {
    classes: ['vscode-dark'],
    colours: {
      'editor-foreground': '#cccccc',
      'editor-background': '#1f1f1f',
      focusBorder: '#0078d4',
      'editorError-foreground': '#f14c4c',
      'editorWarning-foreground': '#cca700',
      'editorInfo-foreground': '#3794ff',
      'input-border': '#3c3c3c',
      'input-foreground': '#cccccc',
      'input-background': '#313131',
      'editorWidget-background': '#202020',
    },
  },
  'high contrast dark': highContrastDark,
  'high contrast light': highContrastLight,
  'forced colours, dark': { ...highContrastDark, media: { forcedColors: 'active', colorScheme: 'dark' } },
  'forced colours, light': { ...highContrastLight, media: { forcedColors: 'active', colorScheme: 'light' } },
};

/** Twice the size is half the room. */
const sizes = { 'at its size': [900, 800], 'at 200 %': [450, 400] } as const;

const cases = Object.entries(kinds).flatMap(([name, kind]) =>
  Object.entries(sizes).map(([size, [width, height]]) => [`${name}, ${size}`, kind, width, height] as const),
);

const tune =
  'X:1\nT:All Looks\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\n"G"!2!G,A,(B,C)|"D7"[D,A,]2(!sulG!^G,!sulG!B,)|\n!>!E,F,G,A,|{F,}E,F,G,2|]\nw:one two three four\n';
const plain = sceneOf(tune, 0);
const found = (severity: SceneFinding['severity'], note: number): SceneFinding => {
  const { id, from, to } = plain.notes[note]!;
  return { from, to, code: 'a.code', severity, message: 'Something.', notes: [id], rests: 'plan' };
};
const scene = { ...plain, findings: [...plain.findings, found('warning', 1), found('info', 3)] };

/** The page with all it can show at once: findings of every kind, caret and music, the hand, the advice, the open list of places. */
async function openAll(browser: Browser, { classes, colours, media }: Kind, width: number, height: number): Promise<Page> {
  const rules = Object.entries(colours).map(([name, value]) => `--vscode-${name}:${value}`);
  const page = await openPage(browser, { style: `:root{${rules.join(';')}}` });
  await page.setViewportSize({ width, height });
  if (media !== undefined) await page.emulateMedia(media);
  await page.evaluate((names) => document.body.classList.add(...names), classes);
  await show(page, scene);
  await send(page, { kind: 'caret', uri: scene.uri, tune: 0, offset: plain.notes[2]!.from, revision: scene.revision, reveal: 'mark' });
  await page.getByLabel('3 beats a minute faster').click();
  await page.getByLabel('Count-in').uncheck();
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  await page.locator('.under .playing').waitFor({ state: 'attached' });
  await page.locator('.marks [tabindex="0"]').focus();
  await page.keyboard.press(' ');
  const { ask, note, head } = (await posted(page, 'ask-places')).at(-1)!;
  const choice = { string: 'D', stop: 5, finger: '2', harmonic: false, regret: 1200, effect: 'A shift before it.' };
  await send(page, { kind: 'places', ask, note, head, choices: [{ ...choice, regret: 0 }, choice] });
  await page.locator('.places button').first().waitFor();
  return page;
}

/** What is drawn, with its colour and the ground it lies on, as the page has computed them. */
interface Drawn {
  readonly what: string;
  readonly colour: string;
  readonly ground: string;
}

const textsOf = (page: Page): Promise<Drawn[]> =>
  page.evaluate(() => {
    const paper = getComputedStyle(document.body).backgroundColor;
    return [...document.querySelectorAll('.engraving text, .marks text')].map((text) => {
      // A finger on the board stands in its dot.
      const dot = text.matches('.fingerboard .tab-stop') ? document.querySelector('.fingerboard circle.finger') : null;
      return {
        what: `${text.getAttribute('class')} ${text.textContent}`,
        colour: getComputedStyle(text).fill,
        ground: dot === null ? paper : getComputedStyle(dot).fill,
      };
    });
  });

const outlinesOf = (page: Page, selector: string): Promise<Drawn[]> =>
  page.evaluate((wanted) => {
    const paper = getComputedStyle(document.body).backgroundColor;
    return [...document.querySelectorAll(wanted)].map((each) => ({
      what: each.getAttribute('class') ?? '',
      colour: getComputedStyle(each).stroke,
      ground: paper,
    }));
  }, selector);

/** Red, green and blue from 0 to 1 of a colour as browsers print it. */
function channels(colour: string): number[] {
  const numbers = (colour.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number).slice(0, 3);
  if (numbers.length < 3) throw new Error(`no colour: ${colour}`);
  return colour.startsWith('color(') ? numbers : numbers.map((each) => each / 255);
}

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(colour: string): number {
  const [r, g, b] = channels(colour).map((each) => (each <= 0.04045 ? each / 12.92 : ((each + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast({ colour, ground }: Drawn): number {
  const [light, dark] = [luminance(colour), luminance(ground)].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

/** Those that fall short of a ratio. */
const faint = (drawn: readonly Drawn[], least: number): string[] =>
  drawn.filter((each) => contrast(each) < least).map((each) => `${each.what}: ${each.colour} on ${each.ground}`);

describe.skipIf(browserPath === null)('the page', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  it.each(cases)('has nothing in a reader’s way and all to be read: %s', async (_name, kind, width, height) => {
    const page = await openAll(browser, kind, width, height);
    const texts = await textsOf(page);
    const findings = await outlinesOf(page, '.under .finding');
    const places = await outlinesOf(page, '.under .caret, .under .playing');
    const told = await page.evaluate(() => {
      const looks = (selector: string, property: string) =>
        new Set([...document.querySelectorAll(selector)].map((each) => getComputedStyle(each).getPropertyValue(property)));
      const dashes = ['error', 'warning', 'info'].map((each) => [...looks(`.under .finding.${each}`, 'stroke-dasharray')].join());
      return {
        dashes: new Set(dashes).size,
        computed: [...looks('.marks text.computed:not(.serif)', 'font-weight')],
        pinned: [...looks('.marks text.pinned:not(.serif)', 'font-weight')],
        wider: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      };
    });
    const violations = await violationsIn(page);
    await page.close();
    expect(violations).toEqual([]);
    // WCAG 2.2, 1.4.3: text 4.5 to 1. 1.4.11: what is needed to understand a picture 3 to 1. 1.4.1: never by colour alone. 1.4.10: no scrolling sideways.
    expect(texts.length).toBeGreaterThan(30);
    expect(faint(texts, 4.5)).toEqual([]);
    expect(findings.length).toBeGreaterThanOrEqual(6);
    expect(faint(findings, 3)).toEqual([]);
    expect(told).toMatchObject({ dashes: 3, computed: ['400'], pinned: ['700'], wider: 0 });
    if (kind.classes.includes('vscode-high-contrast')) expect([places.length, faint(places, 3)]).toEqual([2, []]);
  });
});
