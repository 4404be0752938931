// Names for files written: from titles, safe on every system, never twice in one run.

export interface FileNames {
  /** The name, or with `-2`, `-3` before its ending where it was given before. */
  unique(name: string): string;
}

export function fileNames(): FileNames {
  const given = new Set<string>();
  return {
    unique(name) {
      const dot = name.lastIndexOf('.');
      const [stem, ending] = [name.slice(0, dot), name.slice(dot)];
      let made = name;
      // Compared without case: some systems do not tell `A.pdf` from `a.pdf`.
      for (let i = 2; given.has(made.toLowerCase()); i++) made = `${stem}-${i}${ending}`;
      given.add(made.toLowerCase());
      return made;
    },
  };
}

/** A title as a file's name: letters and figures of any script, the rest a hyphen; at most 60 characters. */
export function slugged(title: string): string {
  const words = title
    .normalize('NFC')
    .toLowerCase()
    .replace(/['’]/g, '')
    .match(/[\p{L}\p{N}\p{M}]+/gu);
  return (words ?? ['untitled']).join('-').slice(0, 60);
}
