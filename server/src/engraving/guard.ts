// A wall around the library: what it throws comes back as data.
import type { EngravingFailed } from './types.ts';

export type Guarded<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly failed: EngravingFailed };

/** Runs `work`; an exception becomes a failure that says where. */
export function guarded<T>(where: EngravingFailed['where'], work: () => T): Guarded<T> {
  try {
    return { ok: true, value: work() };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { ok: false, failed: { where, message } };
  }
}
