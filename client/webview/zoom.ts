// Larger and smaller: Ctrl or Cmd with plus, minus and nought, kept in the page's state.
import { readState, writeState } from './host.ts';

const step = 1.1;
const least = 0.4;
const most = 3;

const next = (key: string, zoom: number): number | null => {
  switch (key) {
    case '+':
    case '=':
      return Math.min(most, zoom * step);
    case '-':
      return Math.max(least, zoom / step);
    case '0':
      return 1;
    default:
      return null;
  }
};

/** Takes the zoom of the state, and follows the keys from then on. */
export function followZoom(root: HTMLElement): void {
  const set = (zoom: number): void => root.style.setProperty('--zoom', String(zoom));
  set(readState().zoom);
  window.addEventListener('keydown', (event) => {
    const zoom = event.ctrlKey || event.metaKey ? next(event.key, readState().zoom) : null;
    if (zoom === null) return;
    writeState({ zoom });
    set(zoom);
    event.preventDefault();
  });
}
