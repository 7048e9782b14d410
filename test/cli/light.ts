import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { vi } from 'vitest';
import { main } from '../../src/cli/main';

const ROOT = join(import.meta.dirname, '..', '..');
const RUN = join(ROOT, 'src', 'cli', 'run.mjs');
const BUNDLE = join(ROOT, '.tsbuild', 'light', 'light.mjs');

export interface Run {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command line in a folder, in this process. `busy` is the processor's time, ms. */
export async function light(folder: string, ...args: string[]): Promise<Run & { readonly busy: number }> {
  const home = process.cwd();
  const began = process.cpuUsage();
  const [out, err] = [heard(process.stdout), heard(process.stderr)];
  process.chdir(folder);
  try {
    const code = await main(args);
    const { user, system } = process.cpuUsage(began);
    return { code, out: out.text(), err: err.text(), busy: (user + system) / 1000 };
  } finally {
    process.chdir(home);
    out.end();
    err.end();
  }
}

/** What is written to a stream from now on, which goes nowhere else. */
function heard(stream: NodeJS.WriteStream): { text(): string; end(): void } {
  const spy = vi.spyOn(stream, 'write').mockReturnValue(true);
  return {
    text: () => spy.mock.calls.map(([text]) => String(text)).join(''),
    end: () => spy.mockRestore(),
  };
}

let bundled: Promise<void> | undefined;

/**
 * Runs the command line in a folder as people do, as a process of its own, with little memory. What reads its
 * standard output may be `deaf`: gone before it says a word.
 */
export async function lightProcess(
  folder: string,
  args: readonly string[],
  options: { readonly deaf?: boolean } = {},
): Promise<Run> {
  bundled ??= start([RUN, '--version'], ROOT).then(({ code, err }) => {
    if (code !== 0) throw new Error(err);
  });
  await bundled;
  return start(['--max-old-space-size=256', BUNDLE, ...args], folder, options);
}

function start(args: string[], cwd: string, { deaf = false } = {}): Promise<Run> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    let [out, err] = ['', ''];
    child.stdout.on('data', (text: Buffer) => {
      out += text.toString();
    });
    child.stderr.on('data', (text: Buffer) => {
      err += text.toString();
    });
    if (deaf) child.stdout.destroy();
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}
