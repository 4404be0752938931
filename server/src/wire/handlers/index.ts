// All requests of the language server protocol that are answered, each in a file of its own.
import type { Connection } from 'vscode-languageserver';
import type { ArrangeTools } from '../../arrangement/index.ts';
import type { Desk } from '../desk.ts';
import type { Documents } from '../documents.ts';
import type { Guard } from '../guard.ts';
import type { Settings } from '../settings.ts';
import { codeActions } from './code-actions.ts';
import { completion } from './completion.ts';
import { definition } from './definition.ts';
import { folding } from './folding.ts';
import { formatting } from './formatting.ts';
import { highlights } from './highlights.ts';
import { hints } from './hints.ts';
import { hover } from './hover.ts';
import { lens } from './lens.ts';
import { links } from './links.ts';
import { places } from './places.ts';
import { rename } from './rename.ts';
import { selection } from './selection.ts';
import { signature } from './signature.ts';
import { symbols } from './symbols.ts';
import { tokens } from './tokens.ts';

/** What a handler works with. */
export interface Desktop {
  readonly connection: Connection;
  readonly guard: Guard;
  readonly documents: Documents;
  readonly settings: Settings;
  readonly desk: Desk;
  /** What arranging needs, for a document. */
  arranging(uri: string): ArrangeTools;
}

export const handlers: readonly ((desktop: Desktop) => void)[] = [
  codeActions,
  completion,
  definition,
  folding,
  formatting,
  highlights,
  hints,
  hover,
  lens,
  links,
  places,
  rename,
  selection,
  signature,
  symbols,
  tokens,
];
