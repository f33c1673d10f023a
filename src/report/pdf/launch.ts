import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import type { Browser } from 'puppeteer-core';
import { onStop } from '../../files/on-stop.js';
import { isAlive } from '../../files/processes.js';
import { removeFolder } from '../../files/remove-folder.js';
import { browserArguments } from './flags.js';
import { pipeTransport } from './pipe.js';

/** How long a browser may take to exit when asked, ms; then it is killed. */
const FAREWELL_MS = 5000;
/**
 * Whether its helpers end with it, so that it need not be asked: they are in its process group. Windows has no such
 * groups.
 */
const ENDS_AS_A_WHOLE = process.platform !== 'win32';
/** A page prints in seconds; one that takes this long never will, ms. */
const PATIENCE_MS = 180_000;
/** How long to wait for the error message of an unresponsive browser, ms. */
const WHY_MS = 1000;
/** A browser's folder: `nightledger-PID-RANDOM`. */
const FOLDER = /^nightledger-(\d+)-/;
/**
 * The browser creates a socket in its folder, about 45 characters longer, and a socket's path is limited to about 100:
 * a longer base is replaced by the system's own.
 */
const LONGEST_BASE = 32;
const SYSTEM_BASE = '/tmp';
/** How many of the browser's last output characters are kept to explain why it ended. */
const KEPT_CHARACTERS = 2000;

/** A browser of our own that is starting. */
export interface Started {
  /**
   * Connects to it. Until then nothing waits for it, so that it can start while there is other work.
   *
   * @throws Error with the browser's output when it did not start
   */
  connect(): Promise<Browser>;
  /** Ends it; the promise is fulfilled when it has ended and its folder is gone. */
  close(): Promise<void>;
}

/**
 * Starts a browser for printing. It works in an empty folder of its own, so that nothing is read from the folder the
 * program is called in, and is connected by a pipe, so that it ends with the program in any case.
 *
 * @param executable absolute path of a browser of the Chromium family
 */
export function start(executable: string, withoutSandbox: boolean): Started {
  removeOrphans();
  const folder = mkdtempSync(join(base(), `nightledger-${process.pid}-`));
  const child = spawn(executable, browserArguments(folder, withoutSandbox), {
    cwd: folder,
    // Anything the browser leaves when killed is in the same folder, and is removed with it.
    env: { ...process.env, TMPDIR: folder, TMP: folder, TEMP: folder },
    stdio: ['ignore', 'ignore', 'pipe', 'pipe', 'pipe'],
    // A process group of its own, which can be ended as a whole.
    detached: ENDS_AS_A_WHOLE,
    windowsHide: true,
  });
  const ended = endOf(child);
  const forget = onStop(() => {
    kill(child);
    removeFolder(folder);
  });
  const finish = async (): Promise<void> => {
    kill(child);
    await ended;
    forget();
    removeFolder(folder);
  };
  let browser: Browser | undefined;
  return {
    async connect() {
      try {
        return (browser = await connected(child, ended));
      } catch (error) {
        // The pipe reports its end before the process gives the reason.
        const why = await Promise.race([ended, rest(WHY_MS)]);
        throw why === undefined ? error : new Error(`it ended at once: ${why}`, { cause: error });
      }
    },
    async close() {
      // Anything it would tidy up before ending is in the folder that is removed.
      if (browser !== undefined && !ENDS_AS_A_WHOLE)
        await Promise.race([browser.close().catch(() => {}), ended, rest(FAREWELL_MS)]);
      await finish();
    },
  };
}

async function connected(child: ChildProcess, ended: Promise<string>): Promise<Browser> {
  // Loaded late: it costs a tenth of a second that a run without a PDF need not spend.
  const { default: puppeteer } = await import('puppeteer-core');
  const [, , , toBrowser, fromBrowser] = child.stdio;
  // A browser that has ended never answers, and a pending answer would keep the program from ending.
  if (child.exitCode !== null || child.signalCode !== null) throw new Error(await ended);
  if (!isWritable(toBrowser) || !isReadable(fromBrowser)) throw new Error('no pipe to the browser could be made');
  return Promise.race([
    puppeteer.connect({ transport: pipeTransport(toBrowser, fromBrowser), protocolTimeout: PATIENCE_MS }),
    ended.then((why) => Promise.reject(new Error(why))),
  ]);
}

/** When the process has ended, or could not be started: the end of its output. */
function endOf(child: ChildProcess): Promise<string> {
  let said = '';
  child.stderr?.on('data', (chunk: Buffer) => {
    said = (said + chunk.toString('utf8')).slice(-KEPT_CHARACTERS);
  });
  return new Promise((resolve) => {
    child.once('error', (error) => resolve(error.message));
    child.once('exit', (code, signal) => resolve(said.trim() || `exit ${code ?? signal ?? 'unknown'}`));
  });
}

function kill(child: ChildProcess): void {
  if (child.pid === undefined) return;
  try {
    // The browser's helpers are in its process group, and may outlive it by a moment.
    if (ENDS_AS_A_WHOLE) process.kill(-child.pid, 'SIGKILL');
    else child.kill();
  } catch {
    // It has ended already.
  }
}

/** Removes the folders of killed runs. */
function removeOrphans(): void {
  for (const name of readdirSync(base())) {
    const pid = FOLDER.exec(name)?.[1];
    if (pid === undefined || isAlive(Number(pid))) continue;
    try {
      rmSync(join(base(), name), { recursive: true, force: true });
    } catch {
      // Probably another user's.
    }
  }
}

/** Where temporary folders are made. */
function base(): string {
  const usual = tmpdir();
  return process.platform !== 'win32' && usual.length > LONGEST_BASE && existsSync(SYSTEM_BASE) ? SYSTEM_BASE : usual;
}

function rest(ms: number): Promise<undefined> {
  return new Promise((resolve) => setTimeout(() => resolve(undefined), ms).unref());
}

function isWritable(stream: unknown): stream is Writable {
  return typeof stream === 'object' && stream !== null && 'write' in stream;
}

function isReadable(stream: unknown): stream is Readable {
  return typeof stream === 'object' && stream !== null && 'read' in stream;
}
