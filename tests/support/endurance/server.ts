// The built language server in a process of its own, as an editor would start it, with a probe for its memory.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { createMessageConnection, type MessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import type { Memory } from './memory.ts';

const root = join(import.meta.dirname, '../../..');
const command = join(root, 'dist/cli.js');
export const serverBuilt = existsSync(command);

export interface ServerProcess {
  readonly connection: MessageConnection;
  memory(): Promise<Memory>;
  stop(): void;
}

/** Starts a server; `options` are what an editor tells it at its start. */
export async function startServer(options: Readonly<Record<string, unknown>> = {}): Promise<ServerProcess> {
  const probe = join(root, 'tests/support/endurance/memory-probe.cjs');
  const child = spawn(process.execPath, ['--require', probe, command, 'lsp', '--stdio']);
  const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  connection.listen();
  await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {}, initializationOptions: options });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    memory: () =>
      new Promise((resolve) => {
        let told = '';
        const hear = (data: Buffer): void => {
          told += data.toString();
          const found = /memory (.*)\n/.exec(told);
          if (found === null) return;
          child.stderr.off('data', hear);
          resolve(JSON.parse(found[1]!));
        };
        child.stderr.on('data', hear);
        child.kill('SIGUSR2');
      }),
    stop: () => {
      connection.dispose();
      child.kill();
    },
  };
}
