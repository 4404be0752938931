// The text handed to the engraving library: same places, our own marks blanked, the file header merged in.
import { describe, expect, it } from 'vitest';
import { readBook } from '../../../server/src/abc/index.ts';
import { prepare, sourceOf, sourceSpan } from '../../../server/src/engraving/index.ts';

const prepared = (text: string, tune = 0) => prepare(readBook(text), tune);

describe('prepare', () => {
  it('blanks our own marks at equal length and keeps beams whole', () => {
    const { text } = prepared('X:1\nL:1/8\nK:C\n!4!A!sulG!B "^sul D"c!>!d [!1!CE] {!2!g}a\n');
    expect(text).toBe('X:1\nL:1/8\nK:C\n```A``````B ````````c```d [   CE] {   g}a\n');
  });

  it('leaves chord symbols, other annotations and other marks alone', () => {
    const line = '"sul G"A"^lively"B!fermata!c.d';
    expect(prepared(`X:1\nK:C\n${line}\n`).text).toBe(`X:1\nK:C\n${line}\n`);
  });

  it('turns symbol lines and our own instructions into comments of the same length', () => {
    const { text } = prepared('X:1\nI:bullfiddle part=bass\nK:C\nABc\ns:!1! * !2!\n');
    expect(text).toBe('X:1\n% bullfiddle part=bass\nK:C\nABc\n% !1! * !2!\n');
  });

  it('hands over LF text and finds every place again after CRLF', () => {
    const source = 'X:1\r\nT:Žluť 𝄞\r\nK:C\r\nABc\r\ndef\r\n';
    const made = prepared(source);
    expect(made.text).toBe(source.replaceAll('\r\n', '\n'));
    for (const letter of 'Adf') expect(sourceOf(made, made.text.indexOf(letter))).toBe(source.indexOf(letter));
    expect(sourceSpan(made, made.text.indexOf('def'), made.text.indexOf('def') + 3)).toEqual({
      from: source.indexOf('def'),
      to: source.indexOf('def') + 3,
    });
  });

  it('merges the file header, whose places are not the tune’s', () => {
    const made = prepared('%abc-2.1\nM:3/4\nL:1/4\nT:Not a title\n\nX:1\nK:C\nABc\n\nX:2\nK:G\nGAB\n', 1);
    expect(made.text).toBe('M:3/4\nL:1/4\nX:2\nK:G\nGAB\n');
    expect(sourceOf(made, 0)).toBe(-1);
    expect(sourceOf(made, made.text.indexOf('GAB'))).toBe('X:2\nK:G\n'.length);
  });

  it('writes macros out, each letter at the place of its call', () => {
    const source = 'X:1\nL:1/8\nm:~G3=G{A}!1!G{F}G\nm:~n2=no/m/n\nK:C\nC~G3 ~d2|\n';
    const made = prepared(source);
    expect(made.text).toBe('X:1\nL:1/8\n% ~G3=G{A}!1!G{F}G\n% ~n2=no/m/n\nK:C\nCG{A}```G{F}G de/c/d|\n');
    for (const letter of ['G{A}', 'G{F}', '{F}G']) expect(sourceOf(made, made.text.lastIndexOf(letter))).toBe(source.lastIndexOf('~G3'));
    expect(sourceOf(made, made.text.indexOf('|'))).toBe(source.lastIndexOf('|'));
  });

  it('breaks lines where I:linebreak says, and not at their ends unless it says so', () => {
    const music = 'ABc|$def| % first\ngab|$ c4|$\n$z8|\n';
    expect(prepared(`X:1\nI:linebreak $\nK:C\n${music}`).text).toBe('X:1\n% linebreak $\nK:C\nABc|\ndef| \\\ngab|\n c4|`\n`z8|\n');
    expect(prepared(`X:1\nI:linebreak <EOL> $\nK:C\n${music}`).text).toBe(
      'X:1\n% linebreak <EOL> $\nK:C\nABc|\ndef| % first\ngab|\n c4|`\n`z8|\n',
    );
    expect(prepared('X:1\nI:linebreak !\nK:C\nA!B|\n').text).toContain('A\nB|\n');
    expect(prepared('X:1\nK:C\nA!B|\n').text).not.toContain('A\n');
  });

  it('keeps a line whole that has words', () => {
    expect(prepared('X:1\nI:linebreak $\nK:C\nABc|$def|\nw:a b c d e f\n').text).toContain('ABc|`def|\nw:');
  });

  it('ends with the tune and gives nothing for a tune that is not there', () => {
    expect(prepared('X:1\nK:C\nABc\n\nfree text\n').text).toBe('X:1\nK:C\nABc\n');
    expect(prepared('X:1\nK:C\n', 4)).toEqual({ text: '', toSource: [] });
  });
});
