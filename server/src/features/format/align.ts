// Lines of voices that sound together, with their bar lines under each other.
import type { PlacedLine } from '../../abc/tree/tree.ts';

/** The texts of all lines, those of a system padded before their bar lines. A system is a run of music lines that each begin with another `[V:...]` and have equally many bars. */
export function alignedLines(lines: readonly PlacedLine[], texts: readonly string[]): readonly string[] {
  const out = [...texts];
  for (let i = 0; i < lines.length; ) {
    const size = systemSize(lines, i);
    if (size > 1) alignSystem(out, i, size);
    i += Math.max(size, 1);
  }
  return out;
}

function systemSize(lines: readonly PlacedLine[], start: number): number {
  const voices = new Set<string>();
  let size = 0;
  for (let i = start; i < lines.length; i++) {
    const voice = voiceOf(lines[i]!);
    if (voice === null || voices.has(voice)) break;
    voices.add(voice);
    size++;
  }
  return size;
}

function voiceOf({ line }: PlacedLine): string | null {
  const first = line.kind === 'music' ? line.items.find((item) => item.kind !== 'space') : undefined;
  return first?.kind === 'inline' && first.field.value.kind === 'voice' && !line.text.includes('%') ? first.field.value.id : null;
}

function alignSystem(out: string[], start: number, size: number): void {
  const rows = out.slice(start, start + size).map(cells);
  const columns = rows[0]!.length;
  if (rows.some((row) => row.length !== columns)) return;
  const widths = Array.from({ length: columns }, (_, c) => Math.max(...rows.map((row) => row[c]!.music.length)));
  rows.forEach((row, r) => {
    const text = row.map(({ music, bar }, c) => (bar === '' && c === columns - 1 ? music : music.padEnd(widths[c]!)) + bar).join('');
    out[start + r] = text;
  });
}

/** A line cut after each bar line: what stands before the bar line without space at its end, and the bar line. Quoted text, brackets and decorations are no bar lines. */
function cells(text: string): readonly { readonly music: string; readonly bar: string }[] {
  const parts = text.match(/(?:"[^"]*"|!\S*?!|\[[A-Za-z]:[^\]]*\]|[^|:]|:(?![|:]))*(?:[|:]+\]?)?/g) ?? [];
  return parts
    .filter((part) => part !== '')
    .map((part) => {
      const bar = /[|:]+\]?$/.exec(part)?.[0] ?? '';
      return { music: part.slice(0, part.length - bar.length).trimEnd(), bar };
    });
}
