// One guard around every handler: a fault is logged and answered with a safe value, so that no feature takes another down.
import type { CancellationToken } from 'vscode-languageserver';
import type { Host } from './host.ts';

/** Where faults and slow answers are told. */
export interface Log {
  info(text: string): void;
  warn(text: string): void;
  error(text: string): void;
}

/** An answer slower than this (ms) is worth a line in the log. */
const slow = 100;

export interface Guard {
  /** Runs `work` for a request named `name`; gives `safe` if it throws or was cancelled meanwhile. */
  answer<T>(name: string, safe: T, token: CancellationToken | null, work: () => T | Promise<T>): Promise<T>;
  /** Runs `work` for a notification named `name`. */
  heed(name: string, work: () => void): void;
}

export function makeGuard(host: Host, log: Log): Guard {
  const fault = (name: string, problem: unknown): void =>
    log.error(`${name}: ${problem instanceof Error ? (problem.stack ?? problem.message) : String(problem)}`);
  const timed = (name: string, start: number): void => {
    const ms = host.now() - start;
    if (ms > slow) log.info(`${name} took ${ms.toFixed(0)} ms`);
  };
  return {
    async answer(name, safe, token, work) {
      if (token?.isCancellationRequested) return safe;
      const start = host.now();
      try {
        const answer = await work();
        return token?.isCancellationRequested ? safe : answer;
      } catch (problem) {
        fault(name, problem);
        return safe;
      } finally {
        timed(name, start);
      }
    },
    heed(name, work) {
      const start = host.now();
      try {
        work();
      } catch (problem) {
        fault(name, problem);
      }
      timed(name, start);
    },
  };
}
