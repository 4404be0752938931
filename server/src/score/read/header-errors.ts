// What a tune's header lacks, what it names in vain, and blocks without an end.
import type { Field } from '../../abc/tree/fields.ts';
import type { PlacedLine, TuneTree } from '../../abc/tree/tree.ts';
import { shifted } from '../../text/span.ts';
import { labelsIn } from '../order.ts';
import { reportAt, type TuneState } from './tune-state.ts';

/** The header must begin with X: and T: and end with K: (2.2.1). `end` is the index of the line after the tune. */
export function reportHeader(tune: TuneState, tree: TuneTree, end: number): void {
  const fields = tree.lines.slice(0, Math.min(tree.bodyStart, end)).flatMap(fieldIn);
  const first = fields[0];
  if (!first) return;
  const title = fields.findIndex(({ field }) => field.letter === 'T');
  if (title < 0) reportAt(tune, 'text.title-missing', shifted(first.field, first.at));
  else if (title > 1) reportAt(tune, 'text.title-late', shifted(fields[title]!.field, fields[title]!.at));
  // Music before K: has been reported on its own line.
  const hasBody = tree.bodyStart < end;
  if (!hasBody && !fields.some(({ field }) => field.letter === 'K')) reportAt(tune, 'text.key-missing', shifted(first.field, first.at));
}

const fieldIn = ({ at, line }: PlacedLine): readonly { at: number; field: Field }[] =>
  line.kind === 'field' ? [{ at, field: line.field }] : [];

/** Parts that the order names and the body does not mark; a body without any marks is not asked. */
export function reportParts(tune: TuneState, tree: TuneTree): void {
  const marked = new Set([...tune.voices.values()].flatMap(({ parts }) => parts.map(({ label }) => label)));
  if (tune.partOrder.length === 0 || marked.size === 0) return;
  const missing = [...new Set(labelsIn(tune.partOrder))].filter((label) => !marked.has(label));
  const placed = tree.lines.flatMap(fieldIn).find(({ field }) => field.letter === 'P');
  if (missing.length > 0 && placed) reportAt(tune, 'text.part-unknown', shifted(placed.field, placed.at), missing.join(', P:'));
}

/** A block of typeset text that is open at the tune's end has swallowed what was to follow. */
export function reportOpenBlock(tune: TuneState, tree: TuneTree): void {
  let open: { at: number; field: Field } | null = null;
  for (const { at, line } of tree.lines) {
    if (line.kind !== 'directive') continue;
    if (/^%%\s*begin/.test(line.text)) open = { at, field: line.field };
    else if (/^%%\s*end/.test(line.text)) open = null;
  }
  if (open) reportAt(tune, 'text.block-unclosed', shifted(open.field, open.at), open.field.text.replace(/^begin/, '').split(/\s/)[0]);
}
