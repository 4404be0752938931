// Bringing a made version up to date with its source, part by part, without losing what a player changed.
import { type Arranged, type ArrangeRequest, type ArrangeTools, arrange } from './arrange.ts';
import { scoreStage } from './stages.ts';
import type { ScoreStage } from './types.ts';
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

/** What an update did to one part. */
export interface PartUpdate {
  readonly part: string;
  readonly state: PartState | 'gone';
  /** In words for the player. */
  readonly message: string;
}

export type Updated =
  | { readonly kind: 'updated'; readonly text: string; readonly parts: readonly PartUpdate[] }
  | { readonly kind: 'not-made'; readonly message: string }
  | { readonly kind: 'impossible'; readonly message: string };

/** The version's text with its stale parts made again. Parts that a player has changed stay as they are, byte for byte. */
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
  const parts = partUpdates(source, version, states);
  if (parts.every((part) => part.state !== 'stale')) return { kind: 'updated', text: version.text, parts };
  const fresh: Arranged = arrange(
    source,
    { ...request, version: register, keyShift: tag.keyShift, number: version.score.number ?? 1 },
    tools,
  );
  if (fresh.kind === 'impossible') return fresh;
  const remade = scoreStage(tools.read(fresh.text), 0);
  const body = spliced(version, remade, parts);
  return { kind: 'updated', text: withDigests(body, source, version, parts, tools), parts };
}

function partUpdates(source: ScoreStage, version: ScoreStage, states: ReadonlyMap<string, PartState>): readonly PartUpdate[] {
  const voice = source.score.voices[0];
  const ours = version.score.voices[0];
  const names = voice === undefined ? [] : namedSections(voice).map((section) => section.name);
  const own = new Set((ours === undefined ? [] : namedSections(ours)).map((section) => section.name));
  return names.map((part) => {
    const state = own.has(part) ? (states.get(part) ?? 'edited') : 'gone';
    return { part, state, message: said(part, state) };
  });
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
      return `Part ${part} was changed by hand, and the source has changed too: it stays as it is. Bring it in line by hand, or delete the part to have it made again.`;
    case 'gone':
      return `Part ${part} of the source is not in this version; it has not been added. Delete the version to have all of it made again.`;
  }
}

/** The version's text with the stale parts' regions taken from the remade one. */
function spliced(version: ScoreStage, remade: ScoreStage, parts: readonly PartUpdate[]): string {
  const stale = new Set(parts.filter((part) => part.state === 'stale').map((part) => part.part));
  const ours = version.score.voices[0]!;
  const theirs = remade.score.voices[0]!;
  const fresh = new Map(namedSections(theirs).map((section) => [section.name, regionOf(remade, theirs, section)]));
  const lineEnd = /\r\n|\n|\r/.exec(version.text)?.[0] ?? '\n';
  let out = '';
  let done = 0;
  for (const section of namedSections(ours)) {
    const region = fresh.get(section.name);
    if (!stale.has(section.name) || region === undefined) continue;
    const { from, to } = regionOf(version, ours, section);
    out += version.text.slice(done, from) + remade.text.slice(region.from, region.to).replace(/\n/g, lineEnd);
    done = to;
  }
  return out + version.text.slice(done);
}

/** Writes the digests of parts made again; those of all others stay, so that a conflict stays one. */
function withDigests(text: string, source: ScoreStage, version: ScoreStage, parts: readonly PartUpdate[], tools: ArrangeTools): string {
  const tag = versionOf(version)!;
  const renewed = new Set(parts.filter((part) => part.state === 'stale').map((part) => part.part));
  const from = mixed(readDigests(tag.from), sourceDigests(source), renewed);
  const made = mixed(readDigests(tag.made), madeDigests(scoreStage(tools.read(text), 0)), renewed);
  return text.replace(`from=${tag.from}`, `from=${digestsText(from)}`).replace(`made=${tag.made}`, `made=${digestsText(made)}`);
}

function mixed(old: Digests, now: Digests, renewed: ReadonlySet<string>): Digests {
  return new Map([...old].map(([name, digest]) => [name, renewed.has(name) ? (now.get(name) ?? digest) : digest]));
}
