// The only owner of the clock: runs jobs in slices, the most urgent first, and lets messages in between slices.
import type { Host } from './host.ts';

/** Something that takes long, cut into small pieces. */
export interface Job {
  /** A new job under the same key takes the place of the older one. */
  readonly key: string;
  /** Lower comes first. */
  readonly urgency: number;
  /** What the next message may outdate waits until those that have come are let in; what the player asked for does not. */
  readonly begins: 'at-once' | 'when-quiet';
  /** Works for a fraction of a slice; true when all is done. */
  step(): boolean;
}

export interface Scheduler {
  put(job: Job): void;
  /** Forgets every job whose key begins so. */
  drop(prefix: string): void;
  /** How many jobs wait. */
  readonly waiting: number;
}

/** Longest time in ms before messages are let in: a key press must never wait for more. */
const slice = 4;
/** It is quiet when so many turns have brought nothing: a message that has come takes a few from the pipe to its handler. */
const quietTurns = 8;

/** `failed` hears of a job that threw; the job is dropped and the others go on. */
export function makeScheduler(host: Host, failed: (key: string, problem: unknown) => void): Scheduler {
  const jobs = new Map<string, Job>();
  let awake = false;
  /** Turns to go until it is quiet. */
  let toGo = 0;

  const mostUrgent = (): Job | null => {
    let best: Job | null = null;
    for (const job of jobs.values()) {
      const may = toGo === 0 || job.begins === 'at-once';
      if (may && (best === null || job.urgency < best.urgency)) best = job;
    }
    return best;
  };
  /** One piece of a job. A job that was replaced while it ran keeps its successor. */
  const advance = (job: Job): void => {
    let done = true;
    try {
      done = job.step();
    } catch (problem) {
      failed(job.key, problem);
    }
    if (done && jobs.get(job.key) === job) jobs.delete(job.key);
  };
  const run = (): void => {
    if (toGo > 0) toGo--;
    const end = host.now() + slice;
    let job = mostUrgent();
    while (job !== null) {
      advance(job);
      if (host.now() >= end) break;
      job = mostUrgent();
    }
    awake = jobs.size > 0;
    if (awake) host.soon(run);
  };
  return {
    put: (job) => {
      jobs.set(job.key, job);
      if (job.begins === 'when-quiet') toGo = quietTurns;
      if (awake) return;
      awake = true;
      host.soon(run);
    },
    drop: (prefix) => {
      for (const key of jobs.keys()) if (key.startsWith(prefix)) jobs.delete(key);
    },
    get waiting() {
      return jobs.size;
    },
  };
}
