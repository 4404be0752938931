// The recorded bass, read from the extension's own files wherever those lie.
import { Uri, workspace } from 'vscode';
import type { ToPage } from '../../messages.ts';

type Samples = Extract<ToPage, { kind: 'samples' }>;

/** The files of media/bass by their numbers; none of them if one cannot be read, and the page then calculates its strings. */
export async function samplesOf(extension: Uri, roots: readonly number[]): Promise<Samples> {
  const read = roots.map(async (root) => {
    const file = Uri.joinPath(extension, 'media', 'bass', `${Math.trunc(root)}.ogg`);
    // A plain array of bytes: other kinds that a file system may give are not carried over to a page.
    return { root, bytes: Uint8Array.from(await workspace.fs.readFile(file)) };
  });
  try {
    return { kind: 'samples', samples: await Promise.all(read) };
  } catch {
    return { kind: 'samples', samples: [] };
  }
}
