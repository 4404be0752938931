// The one line to the extension host.
import type { FromPage, ToPage } from '../messages.ts';
import { type Practices, practicesFrom } from '../practice.ts';

/** What the page leaves for its next life: the editor gives it back when the panel is restored. */
export interface PageState {
  readonly uri: string | null;
  readonly tune: number;
  readonly zoom: number;
  readonly practices: Practices;
}

interface EditorApi {
  postMessage(message: FromPage): void;
  getState(): PageState | undefined;
  setState(state: PageState): void;
}

declare const acquireVsCodeApi: () => EditorApi;

const api = acquireVsCodeApi();

export const post = (message: FromPage): void => api.postMessage(message);

const fresh: PageState = { uri: null, tune: 0, zoom: 1, practices: [] };

/** What was left, with what is missing filled in. */
export function readState(): PageState {
  const left = { ...fresh, ...api.getState() };
  return { ...left, practices: practicesFrom(left.practices) };
}
export const writeState = (change: Partial<PageState>): void => api.setState({ ...readState(), ...change });

/** Calls back with each message of the host. */
export function listen(take: (message: ToPage) => void): void {
  window.addEventListener('message', (event: MessageEvent<ToPage>) => take(event.data));
}
