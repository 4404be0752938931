// Says aloud which findings an edit brought or took away: once the hands rest, and only to a reader who is at this text.
import { spokenFinding } from '../../server/src/drawing/index.ts';
import type { Scene, SceneFinding } from '../messages.ts';
import { html, text } from './dom.ts';

/** A tune with all that is found of it. */
interface Found {
  readonly scene: Pick<Scene, 'uri' | 'tune' | 'notes'>;
  readonly findings: readonly SceneFinding[];
}

/** More than these are counted instead of read out. */
const mostRead = 2;

const keyOf = ({ severity, code, message }: SceneFinding): string => `${severity} ${code} ${message}`;

/** Those of `all` that `others` lacks; two alike count as two. */
function without(all: readonly SceneFinding[], others: readonly SceneFinding[]): SceneFinding[] {
  const left = others.map(keyOf);
  return all.filter((finding) => {
    const at = left.indexOf(keyOf(finding));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

function placed(finding: SceneFinding, { notes }: Found['scene']): string {
  const bar = notes.find(({ id }) => id === finding.notes[0])?.bar;
  return bar === undefined ? spokenFinding(finding) : `Bar ${bar + 1}. ${spokenFinding(finding)}`;
}

function goneText(gone: number, left: number): string {
  if (left === 0) return 'No findings are left.';
  return `${gone === 1 ? 'One finding is' : `${gone} findings are`} gone.`;
}

/** What there is to say of the way from one state of a tune to another; null for nothing. */
export function newsOf(before: readonly SceneFinding[], now: Found): string | null {
  const come = without(now.findings, before);
  const gone = without(before, now.findings).length;
  const words = come.slice(0, mostRead).map((finding) => placed(finding, now.scene));
  if (come.length > mostRead) words.push(`And ${come.length - mostRead} more.`);
  if (gone > 0) words.push(goneText(gone, now.findings.length));
  return words.length === 0 ? null : words.join(' ');
}

export interface Announcer {
  readonly element: HTMLElement;
  /** The text has changed, and what is found of it is not yet known. */
  wait(): void;
  /** What is found now. */
  take(found: Found): void;
  /** The reader's caret has moved in the text. */
  attend(): void;
}

/** After the last change, in ms: longer than between two keys of a slow typist. */
const rest = 1200;

export function makeAnnouncer(): Announcer {
  const element = html('p', { class: 'heard', role: 'status' });
  let told: Found | null = null;
  let timer: number | undefined;
  let attended = false;

  const sameTune = (a: Found, b: Found): boolean => a.scene.uri === b.scene.uri && a.scene.tune === b.scene.tune;

  function tell(found: Found): void {
    const news = newsOf(told?.findings ?? [], found);
    const heard = attended || document.hasFocus();
    told = found;
    attended = false;
    if (news !== null && heard) element.replaceChildren(text(news));
  }

  return {
    element,
    wait: () => window.clearTimeout(timer),
    take(found) {
      window.clearTimeout(timer);
      if (told === null || !sameTune(told, found)) told = found;
      else timer = window.setTimeout(tell, rest, found);
    },
    attend() {
      attended = true;
    },
  };
}
