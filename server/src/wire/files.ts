// Files through one source: the editor if it reads for us, else the place the server runs in. Answers are kept until told of a change.
import type { Connection } from 'vscode-languageserver';
import type { Host } from './host.ts';
import type { AskClient } from './protocol.ts';

export interface Files {
  /** The text of a file, or null if there is none or it cannot be read. */
  read(uri: string): Promise<string | null>;
  /** The text of a file as it is now, not kept: for those that keep less of it. */
  readOnce(uri: string): Promise<string | null>;
  /** Addresses of all tune files of the open folders; none where the client does not list them. */
  list(): Promise<readonly string[]>;
  /** Forgets what was read of this file. */
  forget(uri: string): void;
}

type Read = AskClient['bullfiddle/read'];
type List = AskClient['bullfiddle/list'];

export function makeFiles(connection: Connection, host: Host, clientReads: () => boolean): Files {
  const kept = new Map<string, Promise<string | null>>();
  const fetch = async (uri: string): Promise<string | null> => {
    if (!clientReads()) return host.read(uri);
    const ask: Read['ask'] = { uri };
    return connection.sendRequest<Read['answer']>('bullfiddle/read', ask);
  };
  return {
    read: (uri) => {
      const known = kept.get(uri);
      if (known) return known;
      const reading = fetch(uri).catch(() => null);
      kept.set(uri, reading);
      return reading;
    },
    readOnce: (uri) => fetch(uri).catch(() => null),
    list: async () => {
      if (!clientReads()) return [];
      const ask: List['ask'] = {};
      return connection.sendRequest<List['answer']>('bullfiddle/list', ask).catch(() => []);
    },
    forget: (uri) => void kept.delete(uri),
  };
}

/** Name of the file that holds what is agreed for a folder of tunes. */
export const configName = 'bullfiddle.json';

/** Addresses where a `bullfiddle.json` for this document may lie, nearest first, none above `roots` if the document lies in one of them. */
export function configCandidates(uri: string, roots: readonly string[]): readonly string[] {
  const parts = /^([a-z][a-z0-9+.-]*:\/\/[^/]*)?(\/.*)$/i.exec(uri);
  if (!parts) return []; // An unsaved document has no folder.
  const [, authority = '', path] = parts;
  const root = roots.map((one) => one.replace(/\/$/, '')).find((one) => uri.startsWith(`${one}/`));
  const candidates: string[] = [];
  let folder = path!;
  while (folder.includes('/')) {
    folder = folder.slice(0, folder.lastIndexOf('/'));
    candidates.push(`${authority}${folder}/${configName}`);
    if (authority + folder === root) break;
  }
  return candidates;
}
