// A status item for tune text: whether the fingering is found, and how it came out.
import { type ExtensionContext, LanguageStatusSeverity, languages } from 'vscode';
import type { Plan } from '../messages.ts';
import type { Line } from './line.ts';

export function showStatus(context: ExtensionContext, line: Line): void {
  const item = languages.createLanguageStatusItem('bullfiddle.fingering', { language: 'abc' });
  item.name = 'Bullfiddle';
  item.text = 'Open the sheet to see its fingering';
  item.command = { command: 'bullfiddle.sheet.open', title: 'Open Sheet' };
  const show = (title: string, plans: readonly Plan[] | null): void => {
    item.busy = plans === null;
    item.detail = title;
    item.text = plans === null ? 'Searching for the fingering' : planWords(plans);
    item.severity = plans?.some((plan) => !plan.playable) ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
  };
  let title = '';
  line.on('bullfiddle/scene', ({ scene }) => {
    title = scene.title;
    show(title, scene.bassVoices.length === 0 ? [] : scene.plans);
  });
  line.on('bullfiddle/plan', ({ news }) => show(title, news.plans));
  context.subscriptions.push(item);
}

/** What a player wants to know of a fingering at a glance. */
export function planWords(plans: readonly Plan[]): string {
  if (plans.length === 0) return 'A melody: read and drawn, not judged';
  return plans.map(oneWords).join('; ');
}

function oneWords({ playable, exact, shifts, windows, strings }: Plan): string {
  const instrument = [...strings].reverse().join(' ');
  if (!playable) return `${instrument}: ${windows.length} passage${windows.length === 1 ? '' : 's'} that no hand plays`;
  return `${instrument}: ${shifts} shift${shifts === 1 ? '' : 's'}, ${exact ? 'exact' : 'best found so far'}`;
}
