import { spawn } from 'node:child_process';
import { join } from 'node:path';

const ROOT = join(import.meta.dirname, '..', '..');
const RUN = join(ROOT, 'src', 'cli', 'run.mjs');
const BUNDLE = join(ROOT, '.tsbuild', 'light', 'light.mjs');

export interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  readonly milliseconds: number;
}

/** Bundles the command line once, so that runs beside each other start at once. */
export async function bundle(): Promise<void> {
  const { code, err } = await start([RUN, '--version'], ROOT);
  if (code !== 0) throw new Error(err);
}

/** Runs the command line in a folder, with little memory, as a process of its own. */
export function light(folder: string, ...args: string[]): Promise<Run> {
  return start(['--max-old-space-size=256', BUNDLE, ...args], folder);
}

function start(args: string[], cwd: string): Promise<Run> {
  return new Promise((resolve, reject) => {
    const began = performance.now();
    const child = spawn(process.execPath, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    let [out, err] = ['', ''];
    child.stdout.on('data', (text: Buffer) => {
      out += text.toString();
    });
    child.stderr.on('data', (text: Buffer) => {
      err += text.toString();
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err, milliseconds: performance.now() - began }));
  });
}
