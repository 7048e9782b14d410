import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { access, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import type { Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';

const SOFFICE = process.env.SOFFICE ?? '/usr/bin/soffice';

/** Calc trusts the results stored in .xlsx files of other programs unless told "always recalculate" (0). */
const settings = (locale: string) => `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>${locale}</value></prop></item>
</oor:items>
`;

/** Waits for the end of its input, which comes when whoever holds it stops or dies; then nothing is left behind. */
const CLEAR_UP = 'cat >/dev/null; kill -s KILL -- "-$1" 2>/dev/null; rm -rf "$2" || rm -rf "$2"';

/** Kept open: the program ends after a conversion once nothing is open any more. */
const KEPT = 'kept.slk';

/**
 * A LibreOffice that keeps running, in a profile of its own: to start one takes seconds, to hand it a file a fraction
 * of one. It ends with the process that started it.
 */
export class Office {
  readonly #home: string;
  readonly #server: ChildProcess;
  readonly #clearing: ChildProcess;
  #words = '';
  #isRunning = true;

  private constructor(home: string) {
    this.#home = home;
    this.#server = this.#start([join(home, KEPT)]);
    for (const stream of [this.#server.stdout, this.#server.stderr]) {
      stream?.on('data', (text: Buffer) => {
        this.#words += text.toString();
      });
      (stream as Socket).unref();
    }
    this.#server.once('error', ({ message }) => this.#ended(message));
    this.#server.once('exit', (code, signal) => this.#ended(`it ended with ${code ?? signal}`));
    this.#server.unref();
    this.#clearing = spawn('sh', ['-c', CLEAR_UP, 'sh', String(this.#server.pid), home], {
      detached: true,
      stdio: ['pipe', 'ignore', 'ignore'],
    });
    this.#clearing.unref();
    (this.#clearing.stdin as Socket).unref();
  }

  /**
   * @param locale of whoever opens files in it, e.g. `de-DE`, where a comma stands before decimals
   * @param signal breaks the start off
   * @throws Error with the program's words if it does not come up
   */
  static async start(locale: string, signal: AbortSignal): Promise<Office> {
    const home = await mkdtemp(join(tmpdir(), 'office-'));
    await mkdir(join(home, 'profile', 'user'), { recursive: true });
    await writeFile(join(home, 'profile', 'user', 'registrymodifications.xcu'), settings(locale));
    await writeFile(join(home, KEPT), 'ID;PLOW\nC;Y1;X1;K"kept open"\nE\n');
    const office = new Office(home);
    try {
      // A document that is open is marked so beside it.
      while (!(await exists(join(home, `.~lock.${KEPT}#`)))) {
        if (!office.#isRunning) throw new Error(`LibreOffice did not start: ${office.#words}`);
        await pause(50, undefined, { signal });
      }
      return office;
    } catch (error) {
      await office.stop();
      throw error;
    }
  }

  get isRunning(): boolean {
    return this.#isRunning;
  }

  /** Of the group of processes that serves. */
  get pid(): number | undefined {
    return this.#server.pid;
  }

  /**
   * Hands over what a call of the program would do, and waits until it is done.
   *
   * @returns what the program said
   * @throws Error if `signal` breaks it off, the program may hang then and is to be stopped; or if the program has ended
   */
  async run(args: readonly string[], signal: AbortSignal): Promise<string> {
    this.#words = '';
    const call = this.#start(args);
    for (const stream of [call.stdout, call.stderr])
      stream?.on('data', (text: Buffer) => {
        this.#words += text.toString();
      });
    const breakOff = () => killGroup(call);
    signal.addEventListener('abort', breakOff);
    try {
      if (signal.aborted) breakOff();
      await once(call, 'exit');
      // Whatever it started and left behind would keep its output open, and us waiting for the end of it.
      killGroup(call);
      signal.throwIfAborted();
      if (this.#isRunning) return this.#words;
      // The call did the work itself then, perhaps in a profile without our settings.
      await rm(this.#home, { recursive: true, force: true });
      throw new Error(`LibreOffice ended: ${this.#words}`);
    } finally {
      signal.removeEventListener('abort', breakOff);
    }
  }

  async stop(): Promise<void> {
    if (this.#clearing.exitCode !== null) return;
    const ended = once(this.#clearing, 'exit');
    this.#clearing.stdin?.end();
    await ended;
  }

  #start(args: readonly string[]): ChildProcess {
    const profile = `-env:UserInstallation=${pathToFileURL(join(this.#home, 'profile'))}`;
    // A process group of its own: soffice is a script that starts the program that does the work.
    return spawn(SOFFICE, [profile, '--headless', '--norestore', ...args], {
      detached: true,
      env: { ...process.env, TMPDIR: this.#home },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  }

  #ended(how: string): void {
    this.#isRunning = false;
    this.#words += how;
    this.#clearing.stdin?.end();
  }
}

function killGroup({ pid }: ChildProcess): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch (error) {
    // Nobody left in the group: what we wanted.
    if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
  }
}

function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}
