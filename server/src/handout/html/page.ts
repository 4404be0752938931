// The frame of an HTML page that stands alone: no address is fetched, fonts and style are inside.
import type { FontBook } from '../page/fonts.ts';
import { faceRules, fontRules } from '../page/svg.ts';
import { escaped } from '../xml.ts';

/** What a page may do: fetch nothing; run its own script only where it has one. */
export type Conduct = 'still' | 'scripted';

const policies: Readonly<Record<Conduct, string>> = {
  still: "default-src 'none'; style-src 'unsafe-inline'; font-src data:",
  scripted: "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; font-src data:",
};

/** A page of this title around the parts of its main content, and what stands after them. */
export const htmlPage = (
  title: string,
  { conduct, style, fonts }: { readonly conduct: Conduct; readonly style: string; readonly fonts: FontBook },
  main: readonly string[],
  after: readonly string[] = [],
): string =>
  [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policies[conduct]}">`,
    '<meta name="viewport" content="width=device-width">',
    `<title>${escaped(title)}</title>`,
    `<style>${fontRules(fonts)}${faceRules}${style}</style>`,
    '</head>',
    '<body>',
    '<main>',
    ...main,
    '</main>',
    ...after,
    '</body>',
    '</html>',
    '',
  ].join('\n');
