// The fonts of the page, read and opened when first asked for.
import type { FontBook, FontFiles } from '../../handout/index.ts';
import type { Io } from '../command.ts';

const fontNames = ['serif', 'serif-italic', 'serif-bold', 'digits', 'accidentals'] as const;

/** Opens the fonts when first asked. */
export function fontsOf(io: Io): () => Promise<FontBook> {
  let opened: Promise<FontBook> | null = null;
  return () => {
    opened ??= openedFonts(io);
    return opened;
  };
}

async function openedFonts(io: Io): Promise<FontBook> {
  const { openFonts } = await import('../../handout/index.ts');
  const files = await Promise.all(fontNames.map(async (name) => [name, await io.asset(`fonts/${name}.ttf`)] as const));
  return openFonts(Object.fromEntries(files) as FontFiles);
}
