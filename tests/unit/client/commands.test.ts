// Commands: what the code registers is what package.json offers, in the palette only where it can do something.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../../..');
const { contributes } = JSON.parse(readFileSync(resolve(root, 'package.json'), 'utf8'));
const registered = [...readFileSync(resolve(root, 'client/src/commands/index.ts'), 'utf8').matchAll(/^ {2}'(bullfiddle\.[a-z.]+)':/gm)].map(
  (match) => match[1]!,
);
const names = (list: readonly { readonly command: string }[]): readonly string[] => list.map((one) => one.command);

describe('commands', () => {
  it('are offered as they are registered', () => expect([...names(contributes.commands)].sort()).toEqual([...registered].sort()));
  it('are hidden where they can do nothing, except those that start things', () => {
    const hidden = names(contributes.menus.commandPalette);
    expect(registered.filter((name) => !hidden.includes(name))).toEqual(['bullfiddle.log', 'bullfiddle.book.new']);
  });
  it('have keys in tune text alone', () => {
    for (const { command, when } of contributes.keybindings) {
      expect(registered).toContain(command);
      expect(when).toContain('editorLangId == abc');
    }
    const keys = contributes.keybindings.map((one: { readonly key: string }) => one.key);
    expect(new Set(keys).size).toBe(keys.length);
  });
  it('named in menus and the walkthrough exist', () => {
    const menus = Object.values(contributes.menus as Record<string, { readonly command: string }[]>).flatMap(names);
    const walked = [...JSON.stringify(contributes.walkthroughs).matchAll(/(?:command|onCommand):(bullfiddle\.[a-z.]+)/g)].map((m) => m[1]!);
    for (const name of [...menus, ...walked]) expect(registered).toContain(name);
  });
});
