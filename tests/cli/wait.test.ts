import { describe, expect, it } from 'vitest';
import { LOOK_EVERY_MS, nightOver, PATIENCE_MS, QUIET_MS, type Watch } from '../../src/cli/wait.js';
import { lookAtFolder, stateOfNight, type FolderLook, type NightState } from '../../src/night-end.js';
import { appendFileSync, mkdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const SAMPLE = fileURLToPath(new URL('../../sample-sessions/twin-night', import.meta.url));

/** A watch on an invented folder: what it holds and what the sky does are functions of the clock. */
function watch(folder: (nowMs: number) => FolderLook, sky: (nowMs: number) => NightState) {
  let nowMs = 0;
  const reported: string[] = [];
  const made: Watch = {
    clock: {
      nowMs: () => nowMs,
      rest: (ms) => {
        nowMs += ms;
        return Promise.resolve();
      },
    },
    look: () => folder(nowMs),
    state: (_seen, at) => Promise.resolve(sky(at)),
    onWait: (what) => reported.push(what),
  };
  return { made, reported };
}

/** A frame each five minutes between two hours, and none after. */
const frames =
  (fromHour: number, toHour: number) =>
  (nowMs: number): FolderLook => {
    const files = Math.max(0, Math.floor((Math.min(nowMs, toHour * HOUR) - fromHour * HOUR) / (5 * MINUTE)));
    return { files, signature: String(files), newestMs: files === 0 ? null : fromHour * HOUR + files * 5 * MINUTE };
  };

describe('waiting for the end of a night', () => {
  it('ends twenty minutes after the last file where the Sun is up by then', async () => {
    const { made, reported } = watch(frames(1, 9), (at) => (at < 8 * HOUR ? 'dark' : 'light'));
    const endMs = await nightOver(made);
    expect(endMs).toBeGreaterThanOrEqual(9 * HOUR + QUIET_MS);
    expect(endMs).toBeLessThanOrEqual(9 * HOUR + QUIET_MS + LOOK_EVERY_MS);
    expect(reported).toEqual(['the first file', 'the last file']);
  });

  it('waits for dawn where the imaging ended in the dark, through a pause too', async () => {
    const { made, reported } = watch(frames(1, 4), (at) => (at < 8 * HOUR ? 'dark' : 'light'));
    const endMs = await nightOver(made);
    expect(endMs).toBe(8 * HOUR);
    expect(reported.at(-1)).toBe('dawn');
  });

  it('counts a log that grows as work going on', async () => {
    const growing = (nowMs: number): FolderLook => {
      const size = Math.min(nowMs, 10 * HOUR);
      return { files: 1, signature: String(size), newestMs: size };
    };
    const { made } = watch(growing, () => 'light');
    expect(await nightOver(made)).toBeGreaterThanOrEqual(10 * HOUR + QUIET_MS);
  });

  it('is not over before the night when only flats are there', async () => {
    const { made } = watch(
      () => ({ files: 30, signature: 'flats', newestMs: -HOUR }),
      (at) => (at < 2 * HOUR ? 'no-lights' : 'light'),
    );
    expect(await nightOver(made)).toBe(2 * HOUR);
  });

  it('goes by quiet alone where the site is not known, and by what was written before it began', async () => {
    const { made } = watch(
      () => ({ files: 3, signature: 'old', newestMs: -5 * MINUTE }),
      () => 'unknown-site',
    );
    expect(await nightOver(made)).toBe(15 * MINUTE);
  });

  it('gives up on a folder where nothing comes', async () => {
    const { made } = watch(
      () => ({ files: 0, signature: '', newestMs: null }),
      () => 'dark',
    );
    await expect(nightOver(made)).rejects.toThrow(/36 hours/);
    expect(made.clock.nowMs()).toBeGreaterThan(PATIENCE_MS);
  });
});

describe('what is watched', () => {
  it('changes with every file that comes or grows, and not otherwise', () => {
    const root = tempFolder();
    mkdirSync(join(root, 'logs'));
    expect(lookAtFolder(root, {})).toMatchObject({ files: 0, newestMs: null });
    const log = join(root, 'logs', 'a.jsonl');
    writeFileSync(log, '{}\n');
    utimesSync(log, 1000, 1000);
    const first = lookAtFolder(root, {});
    expect(first).toMatchObject({ files: 1, newestMs: 1_000_000 });
    expect(lookAtFolder(root, {}).signature).toBe(first.signature);
    appendFileSync(log, '{}\n');
    expect(lookAtFolder(root, {}).signature).not.toBe(first.signature);
  });

  // Sunset and the twilights of the sample's night stand in its report: dark from 20:25 to 07:16 local time (UTC+2).
  it.each([
    ['2026-10-15T05:00:00Z', 'dark'],
    ['2026-10-15T05:30:00Z', 'light'],
  ] as const)('knows the Sun at the sample’s site at %s', async (at, state) => {
    expect(await stateOfNight(SAMPLE, {})(lookAtFolder(SAMPLE, {}), Date.parse(at))).toBe(state);
  });
});
