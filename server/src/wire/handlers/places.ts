// The places of one note for the sheet, and the change of text that pins the one chosen.
import { keepingSymbolPlaces, pinEdits } from '../../arrangement/index.ts';
import { placeChoices, plannedNote } from '../../features/index.ts';
import type { Finger } from '../../fingering/types.ts';
import { tuneStart } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { AskServer, NoteAt } from '../protocol.ts';
import type { Desktop } from './index.ts';
import { planOf } from './stages.ts';

type Places = AskServer['bullfiddle/places'];
type Choose = AskServer['bullfiddle/choose'];

export function places(desktop: Desktop): void {
  const { connection, guard } = desktop;
  connection.onRequest('bullfiddle/places', (ask: Places['ask']) =>
    guard.answer<Places['answer']>('places', null, null, async () => {
      const found = await noteAt(desktop, ask);
      return (
        found &&
        placeChoices(found.note).flatMap(({ places, regret, effect }) => {
          const place = places[ask.head];
          return place ? [{ string: place.string, stop: place.stop, finger: place.finger, harmonic: place.harmonic, regret, effect }] : [];
        })
      );
    }),
  );
  connection.onRequest('bullfiddle/choose', (ask: Choose['ask']) =>
    guard.answer<Choose['answer']>('choose', null, null, async () => {
      const found = await noteAt(desktop, ask);
      if (found === null) return null;
      const { string, finger, harmonic } = ask.choice;
      const { document, note } = found;
      const at = tuneStart(document, ask.tune);
      const pins = pinEdits(note.note, ask.head, { string, finger: finger as Finger, harmonic });
      const edits = keepingSymbolPlaces(document.book.tunes[ask.tune]!.tree, pins);
      const absolute = edits.map((edit) => ({ from: at + edit.span.from, to: at + edit.span.to, insert: edit.insert }));
      return { version: document.version, edits: absolute };
    }),
  );
}

/** The note asked for, with its plan; null if the document has moved on since the sheet was drawn. */
async function noteAt(
  desktop: Desktop,
  ask: NoteAt,
): Promise<{ document: OpenDocument; note: NonNullable<ReturnType<typeof plannedNote>> } | null> {
  const document = desktop.documents.get(ask.uri);
  if (!document || document.version !== ask.revision.document) return null;
  const plan = await planOf(desktop, document, ask.tune);
  for (const fingered of plan?.fingered ?? []) {
    const index = fingered.part.notes.findIndex((note) => note.id === ask.note || note.tied.includes(ask.note));
    const note = index < 0 ? null : plannedNote(fingered, index);
    if (note) return { document, note };
  }
  return null;
}
