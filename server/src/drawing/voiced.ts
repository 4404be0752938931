// Findings for the ear: each note says what is found of it, and a note that got no stop can be reached for its findings' sake.
import type { EngravedNote, EngravedSystem, SceneFinding } from '../engraving/types.ts';
import type { NoteId } from '../score/types.ts';
import type { Shape } from './shapes.ts';
import type { PlacedTab } from './system.ts';

const severityWords: Readonly<Record<SceneFinding['severity'], string>> = { error: 'Error', warning: 'Warning', info: 'Remark' };

/** "Warning: This shift is uncomfortable." */
export const spokenFinding = ({ severity, message }: SceneFinding): string => `${severityWords[severity]}: ${message}`;

type Sayings = ReadonlyMap<NoteId, readonly string[]>;

const known = new WeakMap<readonly SceneFinding[], Sayings>();

/** A finding of more notes than these is told in full at its first one, and after that only that it goes on. */
const mostTold = 4;

const saying = (finding: SceneFinding, at: number): string =>
  at > 0 && finding.notes.length > mostTold ? `${severityWords[finding.severity]} goes on` : spokenFinding(finding);

/** What is found of each note, in the order of the findings. */
export function sayingsOf(findings: readonly SceneFinding[]): Sayings {
  const before = known.get(findings);
  if (before !== undefined) return before;
  const sayings = new Map<NoteId, string[]>();
  for (const finding of findings) {
    finding.notes.forEach((note, i) => void sayings.set(note, [...(sayings.get(note) ?? []), saying(finding, i)]));
  }
  known.set(findings, sayings);
  return sayings;
}

const isHeard = (shape: Shape): shape is Shape & { readonly note: NoteId; readonly spoken: string } =>
  shape.spoken !== null && shape.note !== null;

const half = 7;

/** An unseen field on the tab in a note's place. */
function fieldOf(note: EngravedNote, tab: PlacedTab, said: readonly string[]): Shape {
  const { id, from, to } = note.match!.note;
  const x = note.heads[0]!.x - half;
  const meaning = { role: 'finding', ink: 'plain', source: { from, to }, note: id, spoken: ['No stop', ...said].join('. ') } as const;
  return { ...meaning, kind: 'rect', x, y: tab.top - half, w: 2 * half, h: tab.bottom - tab.top + 2 * half };
}

/** Puts a field before the stop that comes next in its voice, so that walking keeps the order of the music. */
function putIn(shapes: readonly Shape[], field: Shape, later: ReadonlySet<NoteId>): Shape[] {
  const next = shapes.findIndex((shape) => isHeard(shape) && later.has(shape.note));
  const at = next < 0 ? shapes.length : next;
  return [...shapes.slice(0, at), field, ...shapes.slice(at)];
}

/** The shapes of a system (as `drawSystem` gives them) with what is found of their notes. `tabs` are those of the system. */
export function voiced(
  system: EngravedSystem,
  shapes: readonly Shape[],
  findings: readonly SceneFinding[],
  tabs: readonly PlacedTab[],
): readonly Shape[] {
  const sayings = sayingsOf(findings);
  if (sayings.size === 0) return shapes;
  const heard = new Set(shapes.filter(isHeard).map(({ note }) => note));
  let all = shapes.map((shape) =>
    isHeard(shape) ? { ...shape, spoken: [shape.spoken, ...(sayings.get(shape.note) ?? [])].join('. ') } : shape,
  );
  system.notes.forEach((note, i) => {
    const scene = note.match?.note;
    const said = sayings.get(scene?.id ?? -1);
    const tab = tabs.find(({ staff, voice }) => staff === note.staff && voice === scene?.voice);
    if (scene === undefined || scene.tied || said === undefined || tab === undefined || heard.has(scene.id)) return;
    const later = system.notes.slice(i + 1).flatMap(({ match }) => (match?.note.voice === scene.voice ? [match.note.id] : []));
    all = putIn(all, fieldOf(note, tab, said), new Set(later));
  });
  return all;
}
