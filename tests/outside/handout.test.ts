// Handouts read by others: MIDI by @tonejs/midi, MusicXML by an XML reader and its schema, PDF by qpdf and poppler, SVG by resvg.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { Midi } from '@tonejs/midi';
import { XMLParser } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { type HandoutTune, midiFile, musicXml, openFonts, pdfFile, svgPage, wavFile } from '../../server/src/handout/index.ts';
import { toNumber } from '../../server/src/score/fraction.ts';
import { demoBook, demoNames, fontFiles, fullTune, handoutTunes, look, madeSheet, practice } from '../support/handout.ts';
import { schemaFolder } from '../support/schemas.ts';

const tunes = [fullTune, ...demoNames.map(demoBook)].flatMap(handoutTunes);
const named = tunes.map((tune) => [tune.score.title, tune] as const);
const has = (tool: string): boolean => spawnSync(tool, ['--version']).error === undefined;

describe('midiFile, read by @tonejs/midi', () => {
  it.each(named)('sounds what is played out, a bass an octave lower: %s', (_, tune) => {
    const midi = new Midi(midiFile(tune, { ...practice, countIn: 0 }));
    const ticks = midi.header.ppq * 4;
    const read = midi.tracks.flatMap((track) =>
      track.notes.map((note) => `${note.ticks / ticks} ${note.durationTicks / ticks} ${note.midi}`),
    );
    const bass = new Set(tune.plans.map((plan) => plan.voice));
    const wanted = tune.played.voices.flatMap(({ voice, events }) =>
      events.map((event) => `${toNumber(event.onset)} ${toNumber(event.duration)} ${event.midi - (bass.has(voice) ? 12 : 0)}`),
    );
    expect(read.sort()).toEqual(wanted.sort());
    expect(midi.header.tempos[0]!.bpm).toBeCloseTo(tune.played.tempos[0]!.bpm * toNumber(tune.played.tempos[0]!.beat) * 4, 2);
  });

  it('sounds graces on the beat in time of their own note, a slurred note after them weaker', () => {
    // 80 ms at 120 quarters a minute are 0.16 quarters, here cut to whole ticks; the second note's grace has half of a sixteenth.
    const graced = handoutTunes('X:1\nT:G\nM:4/4\nL:1/4\nQ:1/4=120\nK:G clef=bass\n({A,}B,){A,}B,/4z3/4{A,}B,G,|]\n')[0]!;
    const midi = new Midi(midiFile(graced, { ...practice, countIn: 0 }));
    const notes = midi.tracks[0]!.notes;
    const rounded = (ticks: number): number => Math.round((ticks / midi.header.ppq) * 1000) / 1000;
    expect(notes.map(({ name, ticks, durationTicks }) => `${name} ${rounded(ticks)}+${rounded(durationTicks)}`)).toEqual([
      ...['A2 0+0.16', 'B2 0.16+0.84'],
      ...['A2 1+0.125', 'B2 1.125+0.125'],
      ...['A2 2+0.16', 'B2 2.16+0.84', 'G2 3+1'],
    ]);
    expect(notes[1]!.velocity).toBeLessThan(notes[0]!.velocity);
    expect(notes[3]!.velocity).toBe(notes[2]!.velocity);
  });

  it('counts in a bar less the pickup, and hammered notes are weaker than plucked ones', () => {
    const midi = new Midi(midiFile(handoutTunes(fullTune)[0]!, practice));
    expect(midi.tracks.at(-1)!.notes.map((note) => note.ticks / midi.header.ppq)).toEqual([0, 1, 2]);
    const notes = midi.tracks[0]!.notes;
    expect(notes[0]!.ticks / midi.header.ppq).toBe(3);
    expect(notes[3]!.velocity).toBeLessThan(notes[2]!.velocity);
  });

  it('has chords and a drone on tracks of their own, softer than the tune, for the bars asked', () => {
    const backed = handoutTunes('X:1\nT:B\nM:4/4\nL:1/4\nK:G clef=bass\n"G"G,4|"D7"D,4|]\n')[0]!;
    const read = (options: object) => new Midi(midiFile(backed, { ...practice, countIn: 0, ...options }));
    const both = read({ chords: 'soft', drone: 'fifth', bars: { first: 2, last: 2 } });
    const heard = both.tracks.filter((track) => ['Chords', 'Drone'].includes(track.name));
    const quarters = heard.map((track) => track.notes.map((note) => `${note.name} ${note.ticks / both.header.ppq}`).sort());
    expect(quarters).toEqual([
      ['A3 1', 'A3 3', 'C4 1', 'C4 3', 'D4 1', 'D4 3', 'F#4 1', 'F#4 3'],
      ['D4 0', 'G3 0'],
    ]);
    const loudest = Math.max(...heard.flatMap((track) => track.notes.map((note) => note.velocity)));
    expect(loudest).toBeLessThan(both.tracks.find((track) => track.notes.some((note) => note.midi < 45))!.notes[0]!.velocity);
    expect(read({}).tracks.map((track) => track.name)).not.toContain('Chords');
  });
});

/** One note as text: step, alter, octave, length in quarters. */
type Xml = Record<string, unknown>;
const parser = new XMLParser({
  ignoreAttributes: false,
  isArray: (name) => ['part', 'measure', 'note', 'tie', 'attributes'].includes(name),
});
const letters: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

function readNotes(xml: string): readonly (readonly string[])[] {
  const score = (parser.parse(xml) as { 'score-partwise': { part: { '@_id': string; measure: Xml[] }[] } })['score-partwise'];
  return score.part.map((part) => {
    let divisions = 1;
    return part.measure.flatMap((measure) => {
      for (const attributes of (measure.attributes as Xml[] | undefined) ?? []) divisions = Number(attributes.divisions ?? divisions);
      return ((measure.note as Xml[] | undefined) ?? []).flatMap((note) => {
        const pitch = note.pitch as { step: string; alter?: number; octave: number } | undefined;
        if (!pitch || note.grace !== undefined) return [];
        return [
          `${12 * (Number(pitch.octave) + 1) + letters[pitch.step]! + Number(pitch.alter ?? 0)} ${Number(note.duration) / divisions}`,
        ];
      });
    });
  });
}

const writtenNotes = (tune: HandoutTune): readonly (readonly string[])[] =>
  tune.score.voices.flatMap((voice) => {
    const notes = voice.notes
      .filter((note) => note.kind === 'note')
      .flatMap((note) => note.heads.map((head) => `${head.written} ${toNumber(note.duration) * 4}`));
    return tune.plans.some((plan) => plan.voice === voice.id) ? [notes, notes] : [notes];
  });

describe('musicXml, read by an XML reader', () => {
  it.each(named)('holds the written notes, in the staff and again in the tab: %s', (_, tune) => {
    expect(readNotes(musicXml(tune, look))).toEqual(writtenNotes(tune));
  });

  it('says string, stop and finger in the tab, and joins hammered notes', () => {
    const xml = musicXml(handoutTunes(fullTune)[0]!, look);
    expect(xml).toContain('<fingering>1</fingering><string>1</string><fret>2</fret>');
    expect(xml).toContain('<hammer-on type="start" number="1">H</hammer-on>');
    expect(xml).toContain('<pull-off type="stop" number="1"/>');
    expect(xml).toContain('<accent/>');
    expect(xml).toContain('<scoop/>');
    expect(xml).toContain('<ending number="1" type="start"/>');
    expect(xml).toContain('<repeat direction="backward"/>');
  });

  it.skipIf(schemaFolder === null || !has('xmllint'))('is valid by the schema of MusicXML 4.0', () => {
    const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-xsd-'));
    // The schema names its neighbours by network address: a copy names the files beside it.
    for (const name of ['musicxml.xsd', 'xlink.xsd', 'xml.xsd']) {
      const text = readFileSync(join(schemaFolder!, 'musicxml-4.0', name), 'utf8');
      writeFileSync(join(folder, name), text.replace(/schemaLocation="[^"]*\/([a-z]+\.xsd)"/g, 'schemaLocation="$1"'));
    }
    const files = tunes.map((tune, i) => {
      const path = join(folder, `${i}.musicxml`);
      writeFileSync(path, musicXml(tune, look));
      return path;
    });
    const run = spawnSync('xmllint', ['--nonet', '--noout', '--schema', join(folder, 'musicxml.xsd'), ...files], { encoding: 'utf8' });
    expect(run.stderr.split('\n').filter((line) => line !== '' && !line.endsWith(' validates'))).toEqual([]);
    expect(run.status).toBe(0);
  });
});

describe('pdfFile, read by qpdf and poppler', () => {
  const fonts = openFonts(fontFiles);
  const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-pdf-'));
  const path = join(folder, 'page.pdf');
  const { flow } = madeSheet(handoutTunes(`${fullTune}\n${demoBook('orrins-lantern').replace(/^X:1$/m, 'X:2')}`), fonts);
  const written = pdfFile(flow, fonts).then((bytes) => writeFileSync(path, bytes));

  it.skipIf(!has('qpdf'))('is sound', async () => {
    await written;
    expect(execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors found');
  });

  it.skipIf(!has('pdftotext'))('holds titles as text, in three scripts', async () => {
    await written;
    const text = execFileSync('pdftotext', [path, '-'], { encoding: 'utf8' });
    expect(text).toContain('Žluť a σειρά, Широка');
    expect(text).toContain('Orrin');
  });

  it.skipIf(!has('pdffonts'))('embeds every font as a subset', async () => {
    await written;
    const lines = execFileSync('pdffonts', [path], { encoding: 'utf8' }).trim().split('\n').slice(2);
    expect(lines.length).toBeGreaterThan(2);
    for (const line of lines) expect(line).toMatch(/ yes +yes +yes /);
  });

  it.skipIf(!has('pdftoppm'))('draws a staff 7.5 mm high (the usual size for a music stand, common practice)', async () => {
    await written;
    execFileSync('pdftoppm', ['-r', '254', '-gray', '-f', '1', '-l', '1', path, join(folder, 'page')]);
    const name = [1, 2].map((n) => join(folder, `page-${n}.pgm`)).find(existsSync)!;
    const pgm = readFileSync(name);
    const [, width, height] = /^P5\s+(\d+)\s+(\d+)\s+\d+\s/.exec(pgm.toString('latin1', 0, 40))!.map(Number) as [number, number, number];
    const pixels = pgm.subarray(pgm.length - width * height);
    const rows = Array.from(
      { length: height },
      (_, y) => pixels.subarray(y * width, (y + 1) * width).filter((value) => value < 160).length,
    );
    const lines = rows.flatMap((dark, y) => (dark > width * 0.6 && (rows[y - 1] ?? 0) <= width * 0.6 ? [y] : []));
    // 254 dots an inch are 10 a mm.
    expect(Math.abs(lines[4]! - lines[0]! - 75)).toBeLessThanOrEqual(1);
  });
});

describe('svgPage, drawn by resvg', () => {
  it('draws, with ink where the page has it', () => {
    const fonts = openFonts(fontFiles);
    const { sheet } = madeSheet(handoutTunes(fullTune), fonts);
    const drawn = new Resvg(svgPage(sheet, sheet.pages[0]!, fonts, 'outlines'), { fitTo: { mode: 'original' } }).render();
    const dark = drawn.pixels.filter((value, i) => i % 4 === 0 && value < 128).length;
    expect(dark).toBeGreaterThan(2000);
    expect(drawn.width).toBeGreaterThan(590);
  });
});

describe('wavFile', () => {
  const wavOf = (options: Partial<typeof practice>): DataView => {
    const made = wavFile(handoutTunes('X:1\nT:t\nM:4/4\nL:1/4\nQ:1/4=120\nK:C clef=bass\nE,, z G, z|]\n')[0]!, {
      ...practice,
      countIn: 0,
      ...options,
    });
    if ('problem' in made) throw new Error(made.problem);
    return new DataView(made.buffer);
  };
  const onsets = (wav: DataView): readonly number[] => {
    const found: number[] = [];
    const size = 441;
    let before = 0;
    for (let at = 44; at + 2 * size < wav.byteLength; at += 2 * size) {
      let power = 0;
      for (let i = 0; i < size; i++) power += wav.getInt16(at + 2 * i, true) ** 2;
      if (power > 4 * before + 1e9) found.push((at - 44) / 2 / 44_100);
      before = power;
    }
    return found;
  };

  it('begins each note on its time', () => {
    expect(onsets(wavOf({}))).toEqual([0, 1]);
    expect(onsets(wavOf({ speed: 0.5 }))).toEqual([0, 2]);
  });

  it.skipIf(!has('sox'))('is the WAV file that sox expects: mono, 44100 Hz, 2 s of music and the tail', () => {
    const path = join(mkdtempSync(join(tmpdir(), 'bullfiddle-wav-')), 't.wav');
    writeFileSync(path, new Uint8Array(wavOf({}).buffer));
    const info = execFileSync('sox', ['--i', path], { encoding: 'utf8' });
    expect(info).toMatch(/Channels\s*: 1/);
    expect(info).toMatch(/Sample Rate\s*: 44100/);
    expect(info).toMatch(/Duration\s*: 00:00:03\.20/);
  });

  it('says that there is nothing to play', () => {
    expect(wavFile(handoutTunes('X:1\nT:t\nK:C clef=bass\nz4|\n')[0]!, practice)).toEqual({ problem: 'there are no notes to play.' });
  });
});
