// Bringing a made version up to date with its source, part by part, without losing what a player changed.
import { applyEdits, type Edit, type Span } from '../text/span.ts';
import { type Arranged, type ArrangeRequest, type ArrangeTools, arrange } from './arrange.ts';
import { scoreStage } from './stages.ts';
import type { ScoreStage, VersionTag } from './types.ts';
import {
  type Digests,
  digestsText,
  madeDigests,
  namedSections,
  type PartState,
  readDigests,
  regionOf,
  sourceDigests,
  statesOf,
  versionOf,
} from './versions.ts';

/** What an update did to one part: beside its state, `added` and `removed` with the source's parts, `gone` where a player took it out, `left` where it cannot be put in or taken out without touching what a player wrote. */
export interface PartUpdate {
  readonly part: string;
  readonly state: PartState | 'added' | 'removed' | 'gone' | 'left';
  /** In words for the player. */
  readonly message: string;
}

export type Updated =
  | { readonly kind: 'updated'; readonly text: string; readonly parts: readonly PartUpdate[] }
  | { readonly kind: 'not-made'; readonly message: string }
  | { readonly kind: 'impossible'; readonly message: string };

/** The version's text with its stale parts made again, new parts of the source added and untouched ones that the source has no more taken out. What a player has changed stays as it is, byte for byte. */
export function updateVersion(
  source: ScoreStage,
  version: ScoreStage,
  request: Omit<ArrangeRequest, 'version' | 'keyShift' | 'number'>,
  tools: ArrangeTools,
): Updated {
  const states = statesOf(source, version);
  const tag = versionOf(version);
  const register = tag?.version.startsWith('high') === true ? 'high' : 'low';
  if (states === null || tag === null)
    return { kind: 'not-made', message: 'This version was written by hand (it has no from= and made=), so there is nothing to update.' };
  const parts = partUpdates(source, version, states, tag);
  if (!parts.some((part) => renews(part.state) || part.state === 'removed')) return { kind: 'updated', text: version.text, parts };
  const fresh: Arranged = arrange(
    source,
    { ...request, version: register, keyShift: tag.keyShift, number: version.score.number ?? 1 },
    tools,
  );
  if (fresh.kind === 'impossible') return fresh;
  const remade = scoreStage(tools.read(fresh.text), 0);
  const done = spliced(version, remade, parts, tools) ?? splicedInPlace(version, remade, parts);
  return { kind: 'updated', text: withDigests(done.text, source, version, done.parts, tools), parts: done.parts };
}

const renews = (state: PartUpdate['state']): boolean => state === 'stale' || state === 'added';

/** Parts of the source in its order, then those of the version that were made from parts the source has no more. */
function partUpdates(
  source: ScoreStage,
  version: ScoreStage,
  states: ReadonlyMap<string, PartState>,
  tag: VersionTag,
): readonly PartUpdate[] {
  const own = new Set(namesOf(version));
  const from = readDigests(tag.from);
  const made = readDigests(tag.made);
  const now = madeDigests(version);
  const wanted = namesOf(source).map((part): PartUpdate => {
    const missing = from.has(part) ? 'gone' : 'added';
    const state = own.has(part) ? (states.get(part) ?? 'edited') : missing;
    return { part, state, message: said(part, state) };
  });
  const unwanted = [...own].filter((part) => from.has(part) && !wanted.some((one) => one.part === part));
  return [
    ...wanted,
    ...unwanted.map((part): PartUpdate => {
      if (made.get(part) === now.get(part)) return { part, state: 'removed', message: said(part, 'removed') };
      return {
        part,
        state: 'conflict',
        message: `The source has no part ${part} any more. It was changed by hand here and stays as it is.`,
      };
    }),
  ];
}

function namesOf(stage: ScoreStage): readonly string[] {
  const voice = stage.score.voices[0];
  return voice === undefined ? [] : namedSections(voice).map((section) => section.name);
}

function said(part: string, state: PartUpdate['state']): string {
  switch (state) {
    case 'clean':
      return `Part ${part} is as made from the source as it is.`;
    case 'stale':
      return `Part ${part} has been made again from the changed source.`;
    case 'edited':
      return `Part ${part} was changed by hand and stays as it is.`;
    case 'conflict':
      return `Part ${part} was changed by hand, and the source has changed too: it stays as it is. Bring it in line by hand, or delete the part here and its name in from= to have it made again.`;
    case 'added':
      return `Part ${part} is new in the source and has been added. If this version has a P: line of its own before the music, see that it names the part.`;
    case 'removed':
      return `The source has no part ${part} any more; it was as made and has been taken out.`;
    case 'gone':
      return `Part ${part} of the source was taken out of this version and stays out. Delete its name in from= to have it made again.`;
    case 'left':
      return `The source's parts have changed, but part ${part} cannot be put in or taken out here without touching its neighbours. Do it by hand, each part on lines of its own.`;
  }
}

interface Spliced {
  readonly text: string;
  readonly parts: readonly PartUpdate[];
}

/** With all that is to be done; null if what a player wrote would not stay as it is, or a part not come out as made. */
function spliced(version: ScoreStage, remade: ScoreStage, parts: readonly PartUpdate[], tools: ArrangeTools): Spliced | null {
  const text = applyEdits(version.text, partEdits(version, remade, parts));
  const now = madeDigests(scoreStage(tools.read(text), 0));
  const before = madeDigests(version);
  const fresh = madeDigests(remade);
  const state = new Map(parts.map((part) => [part.part, part.state]));
  const expected = [...before.keys()].filter((name) => state.get(name) !== 'removed');
  const added = parts.filter((part) => part.state === 'added').map((part) => part.part);
  const right = (name: string): boolean => now.get(name) === (renews(state.get(name) ?? 'edited') ? fresh : before).get(name);
  const names = [...expected, ...added];
  return now.size === names.length && names.every(right) ? { text, parts } : null;
}

/** With the stale parts made again where they stand, and no part put in or taken out. */
function splicedInPlace(version: ScoreStage, remade: ScoreStage, parts: readonly PartUpdate[]): Spliced {
  const left = parts.map(
    (one): PartUpdate =>
      one.state === 'added' || one.state === 'removed' ? { ...one, state: 'left', message: said(one.part, 'left') } : one,
  );
  return { text: applyEdits(version.text, partEdits(version, remade, left)), parts: left };
}

function partEdits(version: ScoreStage, remade: ScoreStage, parts: readonly PartUpdate[]): readonly Edit[] {
  const ours = regionsOf(version);
  const fresh = regionsOf(remade);
  const lineEnd = /\r\n|\n|\r/.exec(version.text)?.[0] ?? '\n';
  const edits = parts.flatMap(({ part, state }, i): readonly Edit[] => {
    const there = ours.get(part);
    const made = fresh.get(part);
    if (state === 'removed' && there !== undefined) return [{ span: there, insert: '' }];
    if (!renews(state) || made === undefined) return [];
    const text = remade.text.slice(made.from, made.to).replace(/\n/g, lineEnd);
    if (there !== undefined) return [{ span: there, insert: text }];
    return [insertion(version.text, placeFor(i, parts, ours), text, lineEnd)];
  });
  return [...edits].sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);
}

function regionsOf(stage: ScoreStage): ReadonlyMap<string, Span> {
  const voice = stage.score.voices[0];
  return new Map(voice === undefined ? [] : namedSections(voice).map((section) => [section.name, regionOf(stage, voice, section)]));
}

/** Where a new part goes: after the nearest earlier part of the source that is here, else before the first. */
function placeFor(index: number, parts: readonly PartUpdate[], ours: ReadonlyMap<string, Span>): number {
  const before = parts.slice(0, index).findLast(({ part }) => ours.has(part));
  return before === undefined ? Math.min(...[...ours.values()].map((span) => span.from)) : ours.get(before.part)!.to;
}

/** Whole lines put in at a place that may stand inside one. */
function insertion(text: string, at: number, lines: string, lineEnd: string): Edit {
  const opens = at === 0 || /[\r\n]$/.test(text.slice(0, at)) ? '' : lineEnd;
  const closes = at === text.length && opens !== '' ? '' : lineEnd;
  return { span: { from: at, to: at }, insert: opens + lines.replace(/[\r\n]+$/, '') + closes };
}

/** Writes the digests of parts made again; those of all others stay, so that a conflict stays one. */
function withDigests(text: string, source: ScoreStage, version: ScoreStage, parts: readonly PartUpdate[], tools: ArrangeTools): string {
  const tag = versionOf(version)!;
  const from = mixed(readDigests(tag.from), sourceDigests(source), parts);
  const made = mixed(readDigests(tag.made), madeDigests(scoreStage(tools.read(text), 0)), parts);
  return text.replace(`from=${tag.from}`, `from=${digestsText(from)}`).replace(`made=${tag.made}`, `made=${digestsText(made)}`);
}

/** In the order of the parts as they are now, then those that are no more. */
function mixed(old: Digests, now: Digests, parts: readonly PartUpdate[]): Digests {
  const state = new Map(parts.map((part) => [part.part, part.state]));
  const names = [...new Set([...now.keys(), ...old.keys()])].filter((name) => state.get(name) !== 'removed');
  return new Map(
    names.flatMap((name): readonly (readonly [string, string])[] => {
      const digest = renews(state.get(name) ?? 'edited') ? (now.get(name) ?? old.get(name)) : old.get(name);
      return digest === undefined ? [] : [[name, digest]];
    }),
  );
}
