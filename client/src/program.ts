// Runs our command line beside the editor: what it makes takes its own time and memory, and can be stopped.
import { spawn } from 'node:child_process';

/** Hears of a run while it goes on. */
export interface Watch {
  /** A line of output: the name of a file written. */
  written(path: string): void;
  /** Called at once with a way to end the run. */
  stopper(stop: () => void): void;
}

/** `code` as of the command line: 0 fine, 2 something could not be made; null if it was stopped. */
export interface Ran {
  readonly code: number | null;
  readonly said: string;
}

/** Runs the command line with arguments in a folder. Never rejects: a program that cannot be started says so. */
export type Program = (args: readonly string[], folder: string, watch: Watch) => Promise<Ran>;

/** The program in a file, run by the Node that runs the editor's extensions. */
export const programAt =
  (file: string): Program =>
  (args, folder, watch) =>
    new Promise((done) => {
      const child = spawn(process.execPath, [file, ...args], { cwd: folder, env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' } });
      watch.stopper(() => child.kill());
      let [said, line] = ['', ''];
      child.stdout.setEncoding('utf8').on('data', (text: string) => {
        const lines = (line + text).split('\n');
        line = lines.pop()!;
        for (const path of lines) watch.written(path);
      });
      child.stderr.setEncoding('utf8').on('data', (text: string) => {
        said += text;
      });
      child.on('error', (problem) => done({ code: 2, said: problem.message }));
      child.on('close', (code) => done({ code, said }));
    });
