// The outline of a tune: its parts and voices, as its text lays them out.
import type { TuneTree } from '../abc/tree/tree.ts';
import type { Span } from '../text/span.ts';
import type { Feature } from './feature.ts';
import { fieldsOf, type PlacedField } from './shared/fields.ts';

export interface SymbolNode extends Span {
  readonly name: string;
  /** A few words beside the name. */
  readonly detail: string;
  readonly kind: 'tune' | 'part' | 'voice';
  /** The text to select when it is chosen. */
  readonly selection: Span;
  readonly children: readonly SymbolNode[];
}

/** There is one question: the whole tune. */
export const symbols: Feature<'tree', null, SymbolNode> = {
  needs: 'tree',
  answer: ({ tree }) => outlineOf(tree),
};

/** The outline of a tune's tree. */
export function outlineOf(tree: TuneTree): SymbolNode {
  const fields = fieldsOf(tree.lines);
  const header = fields.filter((one) => one.at < bodyAt(tree));
  const value = (letter: string): string => header.find((one) => one.field.letter === letter)?.field.text ?? '';
  const number = value('X');
  const first = header[0] ?? fields[0];
  return {
    name: value('T') || `Tune ${number || 'without a title'}`,
    detail: [versionOf(header), value('R'), keyName(value('K'))].filter((word) => word !== '').join(', '),
    kind: 'tune',
    from: 0,
    to: endOfMusic(tree),
    selection: spanOf(header.find((one) => one.field.letter === 'T') ?? first ?? { from: 0, to: 0 }),
    children: sections(
      fields.filter((one) => one.at >= bodyAt(tree) && one.where !== 'directive'),
      endOfMusic(tree),
    ),
  };
}

const bodyAt = (tree: TuneTree): number => tree.lines[tree.bodyStart]?.at ?? tree.length;
const spanOf = ({ from, to }: Span): Span => ({ from, to });
const keyName = (text: string): string => text.split(/\s+(?:clef=|treble|bass|alto|tenor)/)[0] ?? '';

function versionOf(header: readonly PlacedField[]): string {
  const keyed = header.flatMap(({ field }) => (field.value.kind === 'instruction' ? field.value.keyed : []));
  return keyed.find((one) => one.key === 'version')?.value ?? '';
}

/** The end of the last line that belongs to the tune: blank lines and free text after it do not. */
export function endOfMusic(tree: TuneTree): number {
  const last = tree.lines.findLast(({ line }) => line.kind !== 'blank' && line.kind !== 'free');
  return last === undefined ? tree.length : last.at + last.line.text.replace(/[\r\n]+$/, '').length;
}

/** Sections by whichever comes first, part or voice; the other kind makes sections inside. */
function sections(fields: readonly PlacedField[], end: number): readonly SymbolNode[] {
  const marks = fields.filter(({ field }) => field.value.kind === 'parts' || field.value.kind === 'voice');
  const outer = marks[0]?.field.value.kind;
  const starts = marks.flatMap((mark, i) => (mark.field.value.kind === outer ? [i] : []));
  return starts.map((start, i) => {
    const next = marks[starts[i + 1] ?? marks.length];
    return node(marks[start]!, marks.slice(start + 1, starts[i + 1]), next?.from ?? end);
  });
}

function node(mark: PlacedField, inner: readonly PlacedField[], end: number): SymbolNode {
  const { value } = mark.field;
  const voice = value.kind === 'voice';
  const name =
    value.kind === 'voice'
      ? `Voice ${value.properties.name ?? value.id}`
      : value.kind === 'parts'
        ? `Part ${value.label}`
        : mark.field.text;
  return {
    name,
    detail: '',
    kind: voice ? 'voice' : 'part',
    from: mark.from,
    to: Math.max(end, mark.to),
    selection: spanOf(mark),
    children: sections(inner, end),
  };
}
