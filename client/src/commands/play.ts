// Plays, pauses and stops the sheet in front.
import type { CommandTools } from './index.ts';

export const play = ({ sheets }: CommandTools): void => sheets.current()?.post({ kind: 'play', action: 'toggle' });
export const stop = ({ sheets }: CommandTools): void => sheets.current()?.post({ kind: 'play', action: 'stop' });
