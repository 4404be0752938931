// Systems drawn alone: heads found in the text, pictures kept where nothing changed, and a patched sheet equal to a fresh one.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { type PictureNode, toSceneNotes, wordsIn } from '../../../server/src/engraving/index.ts';
import { readScore } from '../../../server/src/score/index.ts';
import { drawable, drawText, systemsOf } from '../../support/page/drawing.ts';
import { editRandomly } from '../../support/page/random-edits.ts';

const header = 'X:1\nT:Test\nM:4/4\nL:1/8\nQ:1/4=120\nK:G clef=bass\n';
const lines = [
  'G,2B,D G,B,DG|C2(EC) A,CEA|"D"D2F,A, (D,E,)F,A,|G,4 G,4-|',
  'G,2B,D G,B,DG|[G,D]2(3EFG A,CEA|{E,}D2F,A, D,!4!E,F,A,|G,4 G,4||',
  'E,,2G,,B,, E,2z2|A,,2C,E, A,2(GE|D)2CB, A,G,F,E,|D,8|',
  '|:"C"C2E2 G2E2|C4 G,4:|1 C2E2 G2E2:|2 C8|]',
];
const tune = header + lines.join('\n');

/** The elements that the library gives a name. */
const namedIn = (node: PictureNode, name: string): PictureNode[] => [
  ...(node.attributes['data-name'] === name ? [node] : []),
  ...node.children.flatMap((child) => namedIn(child, name)),
];

/** Counts the objects that hang on one. */
function reachable(from: object): number {
  const seen = new Set<object>([from]);
  for (const one of seen) for (const each of Object.values(one)) if (typeof each === 'object' && each !== null) seen.add(each);
  return seen.size;
}

describe('systems', () => {
  it('finds every head of notes, chords, graces and ties in the text, at its own pitch', () => {
    const notes = systemsOf(drawText(tune)).flatMap((item) => item.system.notes);
    const book = readBook(tune);
    const written = toSceneNotes(readScore(book.header, book.tunes[0]!.tree)).map((note) => note.id);
    expect([...new Set(notes.map((note) => note.match?.note.id))].sort((a, b) => a! - b!)).toEqual(written);
    for (const note of notes) {
      expect(note.match).not.toBeNull();
      note.heads.forEach((head, i) => {
        const written = note.match!.note.heads[note.match!.heads[i]!]!;
        expect(head.step).toBe(written.step);
      });
    }
  });

  it('draws macros as the notes they stand for and breaks systems where the text says', () => {
    const signs = `X:1\nL:1/8\nM:4/4\nm:~G,3=G,{A,}G,{F,}G,\nI:linebreak $\nK:G clef=bass\n~G,3 D ~G,3 D|$\nG,2B,D| % on\nG,B,DG|$ C8|\nD8|]\n`;
    const systems = systemsOf(drawText(signs));
    const heads = systems.map((item) => item.system.notes.filter((note) => note.kind === 'note').map((note) => note.heads[0]!.step));
    expect(heads.map((steps) => steps.length)).toEqual([8, 7, 2]);
    const matched = systems.flatMap((item) => item.system.notes.filter((note) => note.kind === 'note').map((note) => note.match));
    expect(matched.map((match) => match?.note.heads[0]?.step)).toEqual(heads.flat());
    expect(new Set(matched.map((match) => match?.note.id)).size).toBe(17);
  });

  it('draws one system for an edit of one, and none for a comment or a space', () => {
    const first = systemsOf(drawText(tune));
    const edited = systemsOf(drawText(tune.replace('D,8|', 'D,4 F,4|'), first));
    expect(edited.map((item, i) => item.kept === first[i]!.kept)).toEqual([true, true, false, true]);
    const spaced = systemsOf(drawText(tune.replace('Q:1/4', '% words\nQ:1/4'), first));
    expect(spaced.every((item, i) => item.kept === first[i]!.kept)).toBe(true);
    expect(spaced[0]!.system.notes[0]!.match!.note.from).toBe(first[0]!.system.notes[0]!.match!.note.from + '% words\n'.length);
  });

  it('lets go of what the library laid out: after drawing the parse holds little more than before', () => {
    const { tune: parse, draw } = drawable(tune);
    const before = reachable(parse);
    draw([]);
    expect(reachable(parse)).toBeLessThan(1.5 * before);
  });

  it('does not let a half-typed slur run through later systems', () => {
    const first = systemsOf(drawText(tune));
    const typed = systemsOf(drawText(tune.replace('G,2B,D', 'G,2(B,D'), first));
    expect(typed.map((item, i) => item.kept === first[i]!.kept)).toEqual([true, true, true, true]);
  });

  it('carries open slurs, ties and endings over the line’s end', () => {
    const crossing = `${header}G,8|(A,4 B,4|\nC4) D4-|D4|1 E4:|\n|2 F8|G8|]`;
    const first = systemsOf(drawText(crossing));
    const cut = systemsOf(drawText(crossing.replace('(A', 'A').replace('C4)', 'C4'), first));
    expect(cut.map((item, i) => item.kept === first[i]!.kept)).toEqual([false, false, true]);
  });

  it('gives the same sheet patched as drawn fresh, after random edits', () => {
    expect(editRandomly(tune, header.length, 7, 6)).toEqual([]);
  });

  it('moves words that would run over the end of their line to the left, and says how far those reach that cannot', () => {
    const systems = systemsOf(drawText(`${header}G,4 G,4|G,6 "^another, longer by far than the rest"B,2|\nG,8|\n`));
    const places = namedIn(systems[0]!.kept.drawn.picture, 'annotation').map(({ attributes }) => Number(attributes.x));
    const last = systems[0]!.system.notes.at(-1)!.heads[0]!.x;
    expect(places.at(-1)).toBeLessThan(last - 50);
    expect(systems[0]!.system.reach).toBeLessThan(systems[0]!.system.right + 2);
    const crowded = systemsOf(
      drawText(`${header}"^${'a text as long as half the line is '.repeat(2)}"G,6 "^${'and one that finds no room '.repeat(3)}"B,2|\n`),
    );
    expect(crowded[0]!.system.reach).toBeGreaterThan(crowded[0]!.system.right + 50);
  });

  it('keeps the chords of a melody over the stems of its graces', () => {
    const melody = 'X:1\nM:3/4\nL:1/8\nK:A clef=treble\n"A"c2 e2 a2|"E7"{ab}g4 f2|]\n';
    const { kept, system } = systemsOf(drawText(melody, [], []))[0]!;
    const baselines = namedIn(kept.drawn.picture, 'chord').map(({ attributes }) => Number(attributes.y));
    const highest = Math.min(...system.staffs[0]!.ink.top.filter((y) => y !== null));
    expect(baselines).toHaveLength(2);
    expect(Math.max(...baselines)).toBeLessThan(highest - 1);
  });

  it('counts the beams of a melody to it, and not to the bass close below', () => {
    const two = `X:1\nM:3/4\nL:1/8\nV:1 clef=treble\nV:2 clef=bass\nK:A\nV:1\ne2 (dc)(Bc)|A6|]\nV:2\nG,,,2 B,,,2 E,,2|[A,,E,]6|]\n`;
    const [melody, bass] = systemsOf(drawText(two, [], ['2']))[0]!.system.staffs;
    const highest = Math.min(...bass!.ink.top.filter((y) => y !== null));
    expect(highest).toBeGreaterThan(melody!.bottom + 20);
    expect(Math.max(...melody!.ink.bottom.filter((y) => y !== null))).toBeGreaterThan(melody!.bottom + 5);
  });

  it('knows the ink of a line with more notes than it holds', () => {
    const { system } = systemsOf(drawText(`${header}${'gagagaga|'.repeat(14)}\n`))[0]!;
    const last = system.notes.at(-1)!.heads[0]!;
    expect(last.x).toBeGreaterThan(800);
    expect(system.staffs[0]!.ink.top[Math.round(last.x)]).toBeLessThan(last.y);
  });

  describe('tuplets over the line’s end', () => {
    const crossing = `${header}G,4 G,2 (3C2E2\nG2 C4 C2|(3C2E2G2 (5:4:5CDE\nFG C4|]`;
    const figures = (picture: PictureNode): string[] => namedIn(picture, 'triplet').map(wordsIn);
    const brackets = (picture: PictureNode): number[] =>
      namedIn(picture, 'triplet-bracket').map(({ attributes }) => attributes.d!.split(/[MLz]/).length);

    it('have their figure in each line, and a bracket without a hook where they go on', () => {
      const pictures = systemsOf(drawText(crossing)).map((item) => item.kept.drawn.picture);
      expect(pictures.map(figures)).toEqual([['3'], ['3', '3', '5'], ['5']]);
      const whole = brackets(systemsOf(drawText(`${header}(3C2E2G2 C4|]`))[0]!.kept.drawn.picture)[0]!;
      expect(brackets(pictures[0]!)).toEqual([whole - 2]);
    });

    it('do not run on without notes', () => {
      const half = `${header}G,4 G,2 (3C2E2\nw:a b c d\n`;
      expect(systemsOf(drawText(half)).map((item) => figures(item.kept.drawn.picture))).toEqual([['3']]);
    });

    it('are patched as they are drawn fresh', () => {
      expect(editRandomly(crossing, header.length, 11, 12)).toEqual([]);
    });
  });
});
