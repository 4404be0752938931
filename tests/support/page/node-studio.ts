// A studio without a browser: linkedom's document, texts measured by a fixed rule. Good for all but true widths of words.
import { parseHTML } from 'linkedom';
import type { InkNode, Studio } from '../../../server/src/engraving/index.ts';

interface Global {
  document?: unknown;
  window?: unknown;
  navigator?: unknown;
}

/** Gives the engraving library the globals that it asks a browser for. */
export function nodeStudio(): Studio<string> {
  const { document } = parseHTML('<!doctype html><html><body></body></html>');
  const globals = globalThis as Global;
  globals.document = document;
  globals.window ??= { console };
  if (globals.navigator === undefined) Object.defineProperty(globals, 'navigator', { value: { userAgent: 'test' }, configurable: true });
  return {
    host() {
      const host = document.createElement('div');
      document.body.append(host);
      return host as unknown as object & InkNode;
    },
    picture(host) {
      const element = host as unknown as { innerHTML: string; remove(): void };
      const picture = element.innerHTML;
      element.remove();
      return picture;
    },
  };
}
