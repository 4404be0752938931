// A file that lists tunes (a packet's, a booklet's): read, judged, and what is wrong in it said, so that nothing is made of half a list.
import type { Io } from './command.ts';
import { messageOf } from './sources.ts';

/** The list, or null after saying why there is none. */
export async function readList<T>(
  path: string,
  read: (text: string) => { readonly list: T | null; readonly problems: readonly string[] },
  say: (message: string) => void,
  io: Io,
): Promise<T | null> {
  const text = await io.read(path).catch((problem: unknown) => {
    say(messageOf(problem));
    return null;
  });
  if (text === null) return null;
  const { list, problems } = read(text);
  for (const problem of problems) say(problem);
  return problems.length > 0 ? null : list;
}
