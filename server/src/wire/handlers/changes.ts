// Changes of the text that commands ask for: an action by name, a version made or brought up to date, a tune transposed, a note entered.
import { sourceOf, transposeEdits, updateVersion, versionOf } from '../../arrangement/index.ts';
import type { ScoreStage } from '../../arrangement/types.ts';
import { actions, defaultFeatureSettings, features, versionEdits } from '../../features/index.ts';
import type { Edit, Span } from '../../text/span.ts';
import { tuneAt, tuneStart } from '../convert.ts';
import type { OpenDocument } from '../documents.ts';
import type { AskServer, Wish } from '../protocol.ts';
import type { Desktop } from './index.ts';
import { partOf, planOf } from './stages.ts';

type Change = AskServer['bullfiddle/change'];
type WishOf<K extends Wish['kind']> = Extract<Wish, { kind: K }>;

/** Where a wish is to be granted; the selection is relative to the tune. */
interface Place {
  readonly desktop: Desktop;
  readonly document: OpenDocument;
  readonly tune: number;
  readonly selection: Span;
}

/** Edits of one tune, relative to it, and words for the player. */
interface Granted {
  readonly edits: readonly Edit[];
  readonly words: readonly string[];
  /** Edits of other tunes of the book, relative to the document. */
  readonly elsewhere?: readonly Edit[];
}

const refused = (...words: readonly string[]): Granted => ({ edits: [], words });

export function changes(desktop: Desktop): void {
  const { connection, guard, documents } = desktop;
  connection.onRequest('bullfiddle/change', ({ uri, version, from, to, wish }: Change['ask']) =>
    guard.answer<Change['answer']>('change', null, null, async () => {
      const document = documents.get(uri);
      if (document?.version !== version) return null;
      const { tune, offset } = tuneAt(document, from);
      const selection = { from: offset, to: offset + to - from };
      const granted = tune < 0 ? refused('Put the caret into a tune first.') : await grant({ desktop, document, tune, selection }, wish);
      return granted && { version, words: granted.words, edits: absolute(document, tune, granted) };
    }),
  );
}

function absolute(document: OpenDocument, tune: number, { edits, elsewhere = [] }: Granted) {
  const at = tuneStart(document, tune);
  const moved = edits.map(({ span, insert }) => ({ from: at + span.from, to: at + span.to, insert }));
  return [...moved, ...elsewhere.map(({ span, insert }) => ({ ...span, insert }))];
}

/** null if the text has moved on while the fingering was searched for. */
async function grant(place: Place, wish: Wish): Promise<Granted | null> {
  switch (wish.kind) {
    case 'action':
      return acted(place, wish);
    case 'arrange':
      return arranged(place, wish);
    case 'update':
      return updated(place);
    case 'transpose':
      return transposed(place, wish);
    case 'enter':
      return entered(place, wish);
  }
}

async function acted({ desktop, document, tune, selection }: Place, wish: WishOf<'action'>): Promise<Granted | null> {
  const action = actions.find((one) => one.id === wish.action);
  if (!action) return refused(`There is no action "${wish.action}".`);
  const plan = await planOf(desktop, document, tune);
  if (plan === null) return null;
  const offered = action.offers(plan, selection).some((offer) => offer.variant === wish.variant);
  const edits = offered ? action.edits(plan, selection, wish.variant, desktop.arranging(document.uri)) : [];
  return edits.length > 0 ? { edits, words: [] } : refused('There is nothing to change here: select notes of a bass part.');
}

function arranged({ desktop, document, tune }: Place, { version }: WishOf<'arrange'>): Granted {
  const stage = partOf(desktop, document, tune);
  if (stage.parts[0]?.kind !== 'melody') return refused('Put the caret into a melody: this tune is a bass part already.');
  const there = stage.siblings.find((one) => versionOf(one)?.version === version);
  if (there) return refused(`There is a ${version} version already, "${there.score.title}". ${again(version)}`);
  const made = versionEdits(stage, version, desktop.arranging(document.uri));
  return made.kind === 'impossible' ? refused(made.message) : { edits: made.edits, words: made.warnings };
}

const again = (version: WishOf<'arrange'>['version']): string =>
  version === 'backing' ? 'Delete it to have it made again from the chords.' : 'Update Versions brings it up to date.';

function updated({ desktop, document, tune }: Place): Granted {
  const stage = partOf(desktop, document, tune);
  const family: readonly ScoreStage[] = [stage, ...stage.siblings];
  const source = sourceOf(family);
  if (source === null) return refused('This tune has no versions: its melody is not named as a source. Arrange a version first.');
  const words: string[] = [];
  const elsewhere = family.flatMap((version): readonly Edit[] => {
    if (version.index === source.index || versionOf(version)?.version.startsWith('backing') === true) return [];
    const how = { tempo: null, thin: 'auto', pins: 'changes' } as const;
    const made = updateVersion(source, version, how, desktop.arranging(document.uri));
    const said = made.kind === 'updated' ? made.parts.filter((part) => part.state !== 'clean').map((part) => part.message) : [made.message];
    words.push(...said.map((message) => `${version.score.title}: ${message}`));
    if (made.kind !== 'updated' || made.text === version.text) return [];
    const at = tuneStart(document, version.index);
    return [{ span: { from: at, to: at + version.text.length }, insert: made.text }];
  });
  return { edits: [], elsewhere, words: words.length > 0 ? words : ['All versions are as made from the source as it is.'] };
}

function transposed({ desktop, document, tune }: Place, { semitones }: WishOf<'transpose'>): Granted {
  const { edits, pins } = transposeEdits(partOf(desktop, document, tune), semitones);
  const lost = pins.filter((pin) => pin.fate === 'lost');
  return { edits, words: lost.map((pin) => pin.message) };
}

function entered({ desktop, document, tune, selection }: Place, { string, stop }: WishOf<'enter'>): Granted {
  const note = { at: selection.from, string, stop };
  const insert = features.enterNote.answer(partOf(desktop, document, tune), note, defaultFeatureSettings);
  return insert === null
    ? refused('Notes are entered by string and stop in bass parts only.')
    : { edits: [{ span: selection, insert }], words: [] };
}
