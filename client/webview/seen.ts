// What of a plan and of findings can be seen or heard on a system, as one string: equal strings mean equal marks, so they need not be drawn again.
import { type Look, sayingsOf } from '../../server/src/drawing/index.ts';
import type { EngravedSystem, SceneFinding } from '../../server/src/engraving/index.ts';
import type { NoteId } from '../../server/src/score/types.ts';
import type { Plan } from '../messages.ts';

const known = new WeakMap<Plan, ReadonlyMap<NoteId, string>>();

const joined: ReadonlySet<string> = new Set(['hammer', 'pull', 'glide']);

/** Each note of a plan with what is drawn of it; the note before counts, since changes are drawn, and the one after that it is joined to. */
function factsOfPlan(plan: Plan): ReadonlyMap<NoteId, string> {
  let facts = known.get(plan);
  if (facts === undefined) {
    const own = plan.notes.map(({ places, hand, shift, pinned, attack }) => {
      const where = places.map(({ string, stop, finger, harmonic }) => `${string}${stop}${finger}${harmonic ? 'h' : ''}`).join('+');
      return `${where} ${hand === null ? '' : `${hand.frame}${hand.stop}`} ${shift ? 's' : ''}${pinned.join()}${attack}`;
    });
    facts = new Map(
      plan.notes.flatMap((note, i) => {
        const next = plan.notes[i + 1];
        const onward = next !== undefined && joined.has(next.attack) ? own[i + 1]! : '';
        const last = note.tied.at(-1);
        const said = `${own[i - 1] ?? ''}>${own[i]}>${onward}`;
        return last === undefined
          ? [[note.id, said]]
          : [
              [note.id, said],
              [last, onward],
            ];
      }),
    );
    known.set(plan, facts);
  }
  return facts;
}

/** All that decides the marks of a system beside its geometry, which a kept picture keeps. */
export function factsOf(system: EngravedSystem, plans: readonly Plan[], findings: readonly SceneFinding[], look: Look): string {
  const byVoice = new Map(plans.map((plan) => [plan.voice, factsOfPlan(plan)]));
  const sayings = sayingsOf(findings);
  const strings = plans.map((plan) => plan.strings.join('')).join();
  const notes = system.notes.map(({ match }) => {
    if (match === null) return '-';
    const { id, voice, marks, tied } = match.note;
    return `${byVoice.get(voice)?.get(id) ?? ''} ${marks.join()}${tied ? 't' : ''} ${sayings.get(id)?.join(' ') ?? ''}`;
  });
  return `${look.density} ${look.bassVoices.join()} ${strings}\n${notes.join('\n')}`;
}
