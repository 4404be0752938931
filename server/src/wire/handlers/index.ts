// All requests of the language server protocol that are answered, each in a file of its own.
import type { Connection } from 'vscode-languageserver';
import type { ArrangeTools } from '../../arrangement/index.ts';
import type { Desk } from '../desk.ts';
import type { Documents } from '../documents.ts';
import type { Guard } from '../guard.ts';
import type { Host } from '../host.ts';
import type { Settings } from '../settings.ts';
import type { TuneIndex } from '../tune-index.ts';
import { bars } from './bars.ts';
import { beside } from './beside.ts';
import { changes } from './changes.ts';
import { codeActions } from './code-actions.ts';
import { comparing } from './comparing.ts';
import { completion } from './completion.ts';
import { definition } from './definition.ts';
import { exporting } from './exporting.ts';
import { folding } from './folding.ts';
import { formatting } from './formatting.ts';
import { highlights } from './highlights.ts';
import { hints } from './hints.ts';
import { hover } from './hover.ts';
import { lens } from './lens.ts';
import { links } from './links.ts';
import { paste } from './paste.ts';
import { places } from './places.ts';
import { rename } from './rename.ts';
import { selection } from './selection.ts';
import { signature } from './signature.ts';
import { symbols } from './symbols.ts';
import { tokens } from './tokens.ts';
import { workspaceSymbols } from './workspace-symbols.ts';

/** What a handler works with. */
export interface Desktop {
  readonly connection: Connection;
  readonly host: Host;
  readonly guard: Guard;
  readonly documents: Documents;
  readonly settings: Settings;
  readonly desk: Desk;
  readonly index: TuneIndex;
  /** What arranging needs, for a document. */
  arranging(uri: string): ArrangeTools;
}

export const handlers: readonly ((desktop: Desktop) => void)[] = [
  bars,
  beside,
  changes,
  codeActions,
  comparing,
  completion,
  definition,
  exporting,
  folding,
  formatting,
  highlights,
  hints,
  hover,
  lens,
  links,
  paste,
  places,
  rename,
  selection,
  signature,
  symbols,
  tokens,
  workspaceSymbols,
];
