// What a folder's index knows of a tune: enough to find it by title, key, kind or composer.
import type { TuneTree } from '../abc/tree/tree.ts';
import type { Span } from '../text/span.ts';
import { fieldsOf } from './shared/fields.ts';

export interface TuneHeader {
  readonly title: string;
  readonly titles: readonly string[];
  readonly number: string;
  readonly key: string;
  readonly rhythm: string;
  readonly composer: string;
  /** `low`, `high` and so on; empty where none is declared. */
  readonly version: string;
  readonly slug: string;
  /** The title's place, relative to the tune. */
  readonly selection: Span;
}

export function headerOf(tree: TuneTree): TuneHeader {
  const fields = fieldsOf(tree.lines.slice(0, tree.bodyStart));
  const texts = (letter: string): readonly string[] => fields.filter((one) => one.field.letter === letter).map((one) => one.field.text);
  const first = (letter: string): string => texts(letter)[0] ?? '';
  const keyed = fields.flatMap(({ field }) =>
    field.value.kind === 'instruction' && field.value.name === 'bullfiddle' ? field.value.keyed : [],
  );
  const declared = (key: string): string => keyed.findLast((one) => one.key === key)?.value ?? '';
  const place = fields.find((one) => one.field.letter === 'T') ?? fields[0];
  return {
    title: first('T'),
    titles: texts('T'),
    number: first('X'),
    key: first('K').split(/\s/)[0] ?? '',
    rhythm: first('R'),
    composer: first('C'),
    version: declared('version'),
    slug: declared('tune'),
    selection: { from: place?.from ?? 0, to: place?.to ?? 0 },
  };
}

/** Whether every word of a search is found in title, key, kind, composer or version. */
export function matchesSearch(header: TuneHeader, search: string): boolean {
  const text = [...header.titles, header.key, header.rhythm, header.composer, header.version].join(' ').toLowerCase();
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
