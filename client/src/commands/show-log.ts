// Shows what the language server has logged.
import type { CommandTools } from './index.ts';

export const showLog = ({ client }: CommandTools): void => client.outputChannel.show(true);
