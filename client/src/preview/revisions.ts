// Carries places of an older text into the present one: each document's last changes are remembered by version.

/** One replacement, in terms of the text it was made on: `length` units at `from` became `inserted` units. */
export interface Change {
  readonly from: number;
  readonly length: number;
  readonly inserted: number;
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Revisions {
  /** Notes the changes (in the order in which they apply) that led to `version`. */
  note(uri: string, version: number, changes: readonly Change[]): void;
  forget(uri: string): void;
  /** A stretch of the text at `version` in the present text; null if it was touched since, or the version is too old. */
  carry(uri: string, span: Stretch, version: number, present: number): Stretch | null;
}

/** Versions remembered a document: a page is at most a few behind. */
const mostVersions = 500;

export function makeRevisions(): Revisions {
  const histories = new Map<string, Map<number, readonly Change[]>>();
  return {
    note(uri, version, changes) {
      const history = histories.get(uri) ?? new Map<number, readonly Change[]>();
      histories.set(uri, history);
      history.set(version, changes);
      const oldest = history.keys().next().value;
      if (history.size > mostVersions && oldest !== undefined) history.delete(oldest);
    },
    forget: (uri) => void histories.delete(uri),
    carry(uri, span, version, present) {
      let carried: Stretch | null = span;
      for (let v = version + 1; v <= present && carried !== null; v++) {
        const changes: readonly Change[] | undefined = histories.get(uri)?.get(v);
        if (changes === undefined) return null;
        carried = changes.reduce<Stretch | null>(carriedOver, carried);
      }
      return carried;
    },
  };
}

/** A change before the span moves it, one behind leaves it, one inside makes it unsure where the player pointed. */
function carriedOver(span: Stretch | null, change: Change): Stretch | null {
  if (span === null) return null;
  const end = change.from + change.length;
  const by = change.inserted - change.length;
  if (end <= span.from) return { from: span.from + by, to: span.to + by };
  return change.from >= span.to ? span : null;
}
