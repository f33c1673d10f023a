/** Command-line handling of pixel measurements: how much is read, the progress, and the effect of an interruption. */
import { Option } from 'commander';
import { decimal } from '../model/index.js';
import type { NightOptions } from '../pipeline.js';
import type { Context } from './context.js';
import type { Messages } from './messages.js';

export type StarsOption = 'strips' | 'full' | 'off';

const BYTES_PER_MB = 1e6;

/** `--stars`. */
export function starsOption(): Option {
  return new Option('--stars <how>', 'measure stars in strips of every frame, in full frames, or not at all')
    .choices(['strips', 'full', 'off'] satisfies StarsOption[])
    .default('strips' satisfies StarsOption);
}

/** The measuring of one run. */
export interface StarMeasuring {
  /** For the pipeline; `undefined` when pixels are not measured. */
  readonly options: NightOptions['stars'];
  /** Gives interruptions back to the program. */
  end(): void;
}

/**
 * Sets up the measurement. The first interruption during it ends the measurement, not the program: the report is made
 * with what has been measured. The next one ends the program.
 */
export function starMeasuring(
  by: StarsOption,
  cacheFolder: string,
  context: Context,
  messages: Messages,
): StarMeasuring {
  if (by === 'off') return { options: undefined, end: () => {} };
  const stop = new AbortController();
  let giveBack: (() => void) | undefined;
  let beganMs: number | undefined;
  const end = (): void => {
    giveBack?.();
    giveBack = undefined;
  };
  const interrupted = (): void => {
    end();
    stop.abort();
    messages.note('star measurement stopped; the report uses what was measured so far. Interrupt again to quit');
  };
  return {
    options: {
      by,
      cacheFolder,
      signal: stop.signal,
      onProgress: ({ done, total, bytes }) => {
        if (done >= total) end();
        else if (!stop.signal.aborted) giveBack ??= context.onInterrupt(interrupted);
        beganMs ??= performance.now();
        if (total > 0) messages.progress('measuring stars', done, total, rate(bytes, performance.now() - beganMs));
      },
    },
    end,
  };
}

/** Megabytes per second, for frames on a slow disk; empty until known. */
function rate(bytes: number, elapsedMs: number): string {
  return bytes === 0 || elapsedMs < 500 ? '' : ` · ${decimal(bytes / BYTES_PER_MB / (elapsedMs / 1000), 0)} MB/s`;
}
