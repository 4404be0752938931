// Serves any editor that speaks the language server protocol, over standard input and output.
import type { Command } from '../command.ts';

export const lsp: Command = {
  name: 'lsp',
  summary: 'Serve an editor that speaks the language server protocol.',
  usage: 'bullfiddle lsp --stdio',
  async run(args, io) {
    if (!args.includes('--stdio')) {
      io.err('bullfiddle lsp: name the transport: --stdio\n');
      return 2;
    }
    // Loading it starts it: the server reads the transport from the command line, and lives as long as its input.
    await import('../../wire/node.ts');
    await new Promise<never>(() => {});
    return 0;
  },
};
