// Locks the sheet in front to its file, or lets it follow the active editor again.
import type { CommandTools } from './index.ts';

export function lockSheet({ sheets }: CommandTools): void {
  sheets.current()?.toggleLock();
}
