// The header of an arranged version: the source's words, our declaration, a bass clef.
import type { Line } from '../abc/tree/tree.ts';
import { toText } from '../score/fraction.ts';
import type { ArrangeRequest } from './arrange.ts';
import { keyText, meterText, movedKey } from './compose.ts';
import type { Interval } from './interval.ts';
import type { ScoreStage } from './types.ts';
import { versionOf } from './versions.ts';

/** Fields that are copied as they stand. */
const copied = new Set('TCOARBDFGHNSZ');

/** The `tune=` name: the source's, or one made from its title. */
export function slugFor(source: ScoreStage): string {
  const declared = versionOf(source)?.tune;
  if (declared !== undefined && declared !== '') return declared;
  const slug = source.score.title
    .toLowerCase()
    .normalize('NFD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return slug === '' ? `tune-${source.score.number ?? source.index + 1}` : slug;
}

/** What of a request the header says; `version` as it is declared. */
export interface HeaderRequest extends Pick<ArrangeRequest, 'number' | 'keyShift' | 'tempo'> {
  readonly version: string;
}

/** The header's text, from X: to K:. */
export function arrangedHeader(
  source: ScoreStage,
  request: HeaderRequest,
  by: Interval,
  digests: { readonly from: string; readonly made: string } | null,
): string {
  const { score } = source;
  const order = headerFields(source).find((line) => line.field.letter === 'P');
  const shift = request.keyShift === 0 ? '' : ` key-shift=${request.keyShift}`;
  const made = digests === null ? '' : ` from=${digests.from} made=${digests.made}`;
  return [
    `X:${request.number}`,
    ...words(source, request.version),
    `I:bullfiddle tune=${slugFor(source)} version=${request.version}${shift}${made}`,
    `M:${meterText(score.meter)}`,
    `L:${toText(score.unit)}`,
    ...tempoLines(source, request),
    ...(order === undefined ? [] : [`P:${order.field.text}`]),
    `K:${keyText(movedKey(score.key, by))} clef=bass`,
    '',
  ].join('\n');
}

type FieldLine = Extract<Line, { readonly kind: 'field' }>;

function headerFields(source: ScoreStage): readonly FieldLine[] {
  return source.tree.lines.slice(0, source.tree.bodyStart).flatMap(({ line }) => (line.kind === 'field' ? [line] : []));
}

function words(source: ScoreStage, version: string): readonly string[] {
  let titled = false;
  return headerFields(source)
    .filter((line) => copied.has(line.field.letter))
    .map(({ field }) => {
      if (field.letter !== 'T' || titled) return `${field.letter}:${field.text}`;
      titled = true;
      return `T:${field.text} (${version})`;
    });
}

function tempoLines(source: ScoreStage, request: HeaderRequest): readonly string[] {
  if (request.tempo !== null) return [`Q:${toText(request.tempo.beat)}=${request.tempo.bpm}`];
  const own = headerFields(source).filter((line) => line.field.letter === 'Q');
  return own.map((line) => `Q:${line.field.text}`);
}
