/** The program called as a function, as a shell would call it: arguments and a working folder in, exit code and text out. */
import type { Surroundings } from '../../src/cli/context.js';
import { run } from '../../src/cli/main.js';
import { drawBy } from '../../src/report/charts/thread.js';
import { undrawn } from './drawn-once.js';
import { fewReplays } from './few-replays.js';
import { TEST_NOW_MS } from './sample-night.js';

export interface Ran {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Runs one command line in this process. Its pages have empty charts, with their labels and tables, and its replays
 * two runs.
 *
 * @param folder the working folder meanwhile; relative paths among the arguments start there
 */
export function nightledgerIn(folder: string, ...args: readonly string[]): Promise<Ran> {
  return nightledgerAt({}, folder, ...args);
}

/** {@link nightledgerIn}, with a clock of the caller's, and on a terminal of so many columns where they are given. */
export async function nightledgerAt(
  { columns, ...clock }: Partial<Pick<Surroundings, 'nowMs' | 'waitClock'>> & { readonly columns?: number },
  folder: string,
  ...args: readonly string[]
): Promise<Ran> {
  const written = { stdout: '', stderr: '' };
  const sink = (name: keyof typeof written) => ({
    ...(columns === undefined ? {} : { isTTY: true, columns }),
    write(text: string) {
      written[name] += text;
    },
  });
  const before = process.cwd();
  const drawing = drawBy(undrawn);
  const asUsual = fewReplays(2);
  process.chdir(folder);
  try {
    const status = await run(args, {
      stdout: sink('stdout'),
      stderr: sink('stderr'),
      env: process.env,
      nowMs: TEST_NOW_MS,
      ...clock,
    });
    return { status, ...written };
  } finally {
    process.chdir(before);
    drawBy(drawing);
    asUsual();
  }
}
