// Work counted, not timed: how often blocks of code ran, by the engine's own coverage counts. The same text gives the same count, whatever else the machine does.
import { Session } from 'node:inspector';
import { setFlagsFromString } from 'node:v8';

interface Coverage {
  readonly result: readonly {
    readonly url: string;
    readonly functions: readonly { readonly ranges: readonly { readonly count: number }[] }[];
  }[];
}

export interface WorkCounter {
  /** Blocks of code, of our own files, run by `work`. Loops inside the engine (searching a string, say) are not seen. */
  count(work: () => void): number;
  close(): void;
}

/** Starts counting in this process, which is slow from here on: optimised code leaves blocks out of the count, so nothing is optimised. */
export function workCounter(): WorkCounter {
  setFlagsFromString('--no-opt');
  const session = new Session();
  session.connect();
  session.post('Profiler.enable');
  session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
  return {
    count(work) {
      blocksOf(session);
      work();
      return blocksOf(session);
    },
    close() {
      session.post('Profiler.stopPreciseCoverage');
      session.disconnect();
      setFlagsFromString('--opt');
    },
  };
}

/** Counts since they were last taken; the session answers at once. */
function blocksOf(session: Session): number {
  let blocks = 0;
  session.post('Profiler.takePreciseCoverage', (problem, coverage: Coverage) => {
    if (problem) throw problem;
    for (const { url, functions } of coverage.result)
      if (!url.startsWith('node:')) for (const { ranges } of functions) for (const { count } of ranges) blocks += count;
  });
  return blocks;
}
