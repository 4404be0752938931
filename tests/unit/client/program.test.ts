// Our command line run beside the editor: files told line by line, faults with their words, an end when asked.
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { programAt } from '../../../client/src/program.ts';

const folder = mkdtempSync(join(tmpdir(), 'bullfiddle-program-'));

async function run(script: string, args: readonly string[] = [], stopping: (stop: () => void) => void = () => {}) {
  const file = join(folder, 'program.cjs');
  writeFileSync(file, script);
  const written: string[] = [];
  const ran = await programAt(file)(args, folder, { written: (path) => void written.push(path), stopper: stopping });
  return { ...ran, written };
}

describe('programAt', () => {
  it('tells each line once it is whole, and gives the exit code', async () => {
    const script = "process.stdout.write('a.p'); process.stdout.write('df\\n' + process.argv[2] + '\\n'); process.exitCode = 2;";
    expect(await run(script, ['ž b.wav'])).toEqual({ code: 2, said: '', written: ['a.pdf', 'ž b.wav'] });
  });

  it('keeps what is said of faults', async () => {
    expect(await run("process.stderr.write('list.json: tunes: name one.\\n'); process.exitCode = 2;")).toMatchObject({
      code: 2,
      said: 'list.json: tunes: name one.\n',
    });
  });

  it('ends a run that is stopped', async () => {
    const ran = await run('setInterval(() => {}, 1000);', [], (stop) => void setImmediate(stop));
    expect(ran.code).toBe(null);
  });

  it('says that a folder is not there', async () => {
    const ran = await programAt(join(folder, 'program.cjs'))([], join(folder, 'none'), { written: () => {}, stopper: () => {} });
    expect(ran.code).toBe(2);
    expect(ran.said).not.toBe('');
  });
});
