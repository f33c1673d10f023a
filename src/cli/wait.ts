/**
 * `report --wait`: until the night is over. The folder is looked at again and again, which works on every file system
 * and on shares of other computers too.
 */
import type { FolderLook, NightState } from '../night-end.js';

/** Without a new or growing file for this long imaging is over, ms. */
export const QUIET_MS = 20 * 60_000;
/** Between two looks, ms. */
export const LOOK_EVERY_MS = 60_000;
/** A folder that stays empty or dark for this long is not the intended one, ms. */
export const PATIENCE_MS = 36 * 3_600_000;

/** The clock, and how to pass time; a test brings its own. */
export interface WaitClock {
  nowMs(): number;
  rest(ms: number): Promise<void>;
}

/** What is waited for. */
export interface Watch {
  readonly clock: WaitClock;
  look(): FolderLook;
  state(seen: FolderLook, nowMs: number): Promise<NightState>;
  /** Called once for each thing that is being waited for. */
  readonly onWait?: (what: string) => void;
}

/**
 * Waits until no file has appeared or grown for {@link QUIET_MS} and the Sun is above the darkness limit.
 *
 * @returns UTC ms when it was over
 * @throws Error when that does not happen within {@link PATIENCE_MS}
 */
export async function nightOver({ clock, look, state, onWait }: Watch): Promise<number> {
  const startMs = clock.nowMs();
  let signature: string | null = null;
  let changedMs = startMs;
  let reported = '';
  const tell = (what: string): void => {
    if (what !== reported) onWait?.(what);
    reported = what;
  };
  for (;;) {
    const nowMs = clock.nowMs();
    const seen = look();
    if (seen.signature !== signature)
      // Files present at the first look have been quiet since they were written.
      changedMs = signature === null ? Math.min(nowMs, seen.newestMs ?? nowMs) : nowMs;
    signature = seen.signature;
    if (nowMs - changedMs < QUIET_MS || seen.files === 0) {
      tell(seen.files === 0 ? 'the first file' : 'the last file');
    } else {
      const now = await state(seen, nowMs);
      // Without a site, quiet is all there is to go by.
      if (now === 'light' || now === 'unknown-site') return nowMs;
      tell(now === 'dark' ? 'dawn' : 'the first light frame');
    }
    if (nowMs - startMs > PATIENCE_MS)
      throw new Error('waited 36 hours and the night did not end: check that this is the folder the frames go to');
    await clock.rest(LOOK_EVERY_MS);
  }
}

/** The system's clock. */
export const systemClock: WaitClock = {
  nowMs: () => Date.now(),
  rest: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
};
