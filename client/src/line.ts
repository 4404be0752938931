// The line to the language server: our own notifications and requests beside the protocol's, by their types.
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { AskServer, FromClient, FromServer } from '../../server/src/wire/protocol.ts';

export type { AskServer, DocumentEdits, Exported, HandoutFormat, Wish } from '../../server/src/wire/protocol.ts';

type Hearer = (params: unknown) => void;

export interface Line {
  notify<M extends keyof FromClient>(method: M, params: FromClient[M]): void;
  ask<M extends keyof AskServer>(method: M, params: AskServer[M]['ask']): Promise<AskServer[M]['answer']>;
  on<M extends keyof FromServer>(method: M, heed: (params: FromServer[M]) => void): void;
  log(message: string): void;
}

export function lineTo(client: BaseLanguageClient): Line {
  // The connection keeps one handler a method; here several may hear the same.
  const hearers = new Map<string, Hearer[]>();
  const fault = (problem: unknown): void => client.warn(problem instanceof Error ? problem.message : String(problem), undefined, false);
  return {
    notify: (method, params) => void client.sendNotification(method, params).catch(fault),
    ask: (method, params) => client.sendRequest(method, params),
    on(method, heed) {
      const known = hearers.get(method);
      if (known) return void known.push(heed as Hearer);
      const all = [heed as Hearer];
      hearers.set(method, all);
      client.onNotification(method, (params: unknown) => {
        for (const each of all) each(params);
      });
    },
    log: (message) => client.info(message, undefined, false),
  };
}
