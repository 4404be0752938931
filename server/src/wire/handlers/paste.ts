// Pasted tune text made plain.
import { cleanPasted } from '../../features/index.ts';
import type { AskServer } from '../protocol.ts';
import type { Desktop } from './index.ts';

type Clean = AskServer['bullfiddle/clean'];

export function paste({ connection, guard }: Desktop): void {
  connection.onRequest('bullfiddle/clean', ({ text }: Clean['ask']) =>
    guard.answer<Clean['answer']>('clean', text, null, () => cleanPasted(text, /\r?\n/.exec(text)?.[0] === '\r\n' ? '\r\n' : '\n')),
  );
}
