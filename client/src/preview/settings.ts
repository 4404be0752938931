// How the sheet is shown, from the editor's settings for a file.
import { type Uri, workspace } from 'vscode';
import type { Look } from '../../messages.ts';

export function lookOf(uri: Uri): Look {
  const settings = workspace.getConfiguration('bullfiddle.sheet', uri);
  return {
    density: settings.get<Look['density']>('density', 'all'),
    layout: settings.get<Look['layout']>('layout', 'stacked'),
    follow: settings.get<Look['follow']>('follow', 'mouse'),
  };
}
