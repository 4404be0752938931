// Layers point one way: walks every import of the sources, types included, and fails on an arrow the design does not have.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../..');

type Layer = string;
interface Allowed {
  readonly values: readonly Layer[];
  readonly types: readonly Layer[];
}

const core = ['text', 'abc', 'score', 'bass', 'fingering', 'arrangement', 'checks', 'features', 'engraving', 'drawing', 'handout'];

/** Which layer may import which; a layer may always import itself. Values may be imported as types too. */
const matrix: Readonly<Record<Layer, Allowed>> = {
  text: { values: [], types: [] },
  abc: { values: ['text'], types: [] },
  score: { values: ['text', 'abc'], types: [] },
  bass: { values: [], types: [] },
  fingering: { values: ['bass'], types: [] },
  arrangement: { values: ['text', 'score', 'bass', 'fingering'], types: ['abc'] },
  checks: { values: ['text', 'abc', 'score', 'arrangement'], types: ['bass', 'fingering'] },
  features: { values: ['text', 'abc', 'score', 'arrangement', 'checks'], types: ['bass', 'fingering'] },
  engraving: { values: ['text', 'score'], types: ['abc', 'arrangement'] },
  drawing: { values: [], types: ['text', 'score', 'arrangement', 'engraving'] },
  handout: { values: ['score', 'engraving', 'drawing'], types: ['text', 'arrangement'] },
  wire: { values: core, types: [] },
  cli: { values: [...core, 'wire'], types: [] },
  messages: { values: [], types: ['arrangement', 'engraving'] },
  client: { values: ['messages'], types: ['wire'] },
  webview: { values: ['engraving', 'drawing', 'messages'], types: ['score', 'arrangement', 'text'] },
};

function layerOf(path: string): Layer {
  const parts = relative(root, path).split('/');
  if (parts[0] === 'server') return parts[2] ?? '';
  if (parts[1] === 'messages.ts' || parts[1] === 'practice.ts') return 'messages';
  return parts[1] === 'webview' ? 'webview' : 'client';
}

function sources(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? sources(path) : /\.ts$/.test(name) && !name.endsWith('.d.ts') ? [path] : [];
  });
}

interface Arrow {
  readonly from: string;
  readonly to: string;
  readonly kind: 'value' | 'type';
}

const importPattern = /(?:^|\n)\s*(import|export)\s+(type\s+)?(?:[^'";]*?\sfrom\s+)?'([^']+)'|import\('([^']+)'\)/g;

function arrowsOf(path: string): Arrow[] {
  const text = readFileSync(path, 'utf8');
  return [...text.matchAll(importPattern)].flatMap((match): Arrow[] => {
    const target = match[3] ?? match[4]!;
    const to = target.startsWith('.') ? resolve(dirname(path), target) : target;
    // An inline import() in a type position stands in a type; a call of import() is a value, and none is written below the borders.
    return [{ from: path, to, kind: match[2] || match[4] ? 'type' : 'value' }];
  });
}

const files = [...sources(join(root, 'server/src')), ...sources(join(root, 'client'))];
const arrows = files.flatMap(arrowsOf);
const told = (arrow: Arrow) => `${relative(root, arrow.from)} -> ${relative(root, arrow.to)} (${arrow.kind})`;

describe('layers', () => {
  it('has only the arrows of the design', () => {
    const wrong = arrows
      // The version in package.json belongs to no layer.
      .filter((arrow) => arrow.to.startsWith('/') && arrow.to !== join(root, 'package.json'))
      .filter((arrow) => {
        const from = layerOf(arrow.from);
        const to = layerOf(arrow.to);
        const allowed = matrix[from];
        if (!allowed) return true;
        return from !== to && !allowed.values.includes(to) && !(arrow.kind === 'type' && allowed.types.includes(to));
      });
    expect(wrong.map(told)).toEqual([]);
  });

  it('imports files that exist, by their full name', () => {
    expect(arrows.filter((arrow) => arrow.to.startsWith('/') && !existsSync(arrow.to)).map(told)).toEqual([]);
  });

  it('knows the editor only in client/src and the protocol only in wire and client/src', () => {
    const stray = arrows.filter((arrow) => {
      const layer = layerOf(arrow.from);
      if (arrow.to === 'vscode') return layer !== 'client';
      return arrow.to.startsWith('vscode-') && layer !== 'wire' && layer !== 'client';
    });
    expect(stray.map(told)).toEqual([]);
  });

  it('knows the engraving library only in engraving', () => {
    expect(arrows.filter((arrow) => arrow.to.startsWith('abcjs') && layerOf(arrow.from) !== 'engraving').map(told)).toEqual([]);
  });

  it('reads every file: the walk is not empty', () => {
    expect(files.length).toBeGreaterThan(10);
    expect(arrows.length).toBeGreaterThan(10);
  });
});

describe('files', () => {
  it('say what they are in their first line', () => {
    expect(files.filter((file) => !/^(\/\/|#!)/.test(readFileSync(file, 'utf8'))).map((file) => relative(root, file))).toEqual([]);
  });
});

const metaFile = join(root, 'dist/meta.json');

describe.skipIf(!existsSync(metaFile))('bundles', () => {
  const meta: { outputs: Record<string, { inputs: Record<string, unknown> }> } = existsSync(metaFile)
    ? JSON.parse(readFileSync(metaFile, 'utf8'))
    : { outputs: {} };
  const inputsOf = (name: string) => Object.keys(meta.outputs[`dist/${name}`]?.inputs ?? {});

  it('carry no fingering into the page', () => {
    expect(inputsOf('webview.js').length).toBeGreaterThan(0);
    expect(inputsOf('webview.js').filter((input) => /server\/src\/(fingering|bass|checks|features)\//.test(input))).toEqual([]);
  });

  it('carry no editor API into the server', () => {
    for (const name of ['server.js', 'server.web.js']) {
      expect(inputsOf(name).length).toBeGreaterThan(0);
      expect(inputsOf(name).filter((input) => /(^|\/)vscode\/|vscode-languageclient/.test(input))).toEqual([]);
    }
  });

  it('keep the paper out of the command line until it is asked for', () => {
    expect(inputsOf('cli.js').filter((input) => /node_modules\/(abcjs|pdfkit|linkedom)\//.test(input))).toEqual([]);
  });
});
