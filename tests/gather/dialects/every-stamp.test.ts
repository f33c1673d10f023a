import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { some } from '../../support/runs.js';
import { type Happening, inventedNight } from './invented/night.js';
import { COMPLICATIONS } from './invented/complications.js';
import { STAMP_STYLES } from './invented/stamps.js';
import { scoreLine, scoreLog } from './support/score-folder.js';

const folder = mkdtempSync(join(tmpdir(), 'stamps-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Wordings that leave no doubt about the event, so that only the time is on trial. */
const WORDINGS: Readonly<Partial<Record<Happening['event'], (facts: Happening['facts']) => string>>> = {
  'exposure-begin': ({ seconds, filter, target }) => `exposure started: ${seconds} s, ${filter}, ${target}`,
  'exposure-end': ({ n }) => `exposure finished, frame ${n}`,
  'exposure-abort': ({ n }) => `exposure aborted, frame ${n}`,
  'frame-saved': ({ file }) => `image saved as ${file}`,
  'dither-ready': () => 'ready to dither, waiting',
  'dither-begin': ({ pixels }) => `dither started by ${pixels} px`,
  'dither-end': () => 'dither finished',
  'settling-begin': () => 'settling started',
  'settling-end': () => 'settling finished',
  'focus-begin': () => 'autofocus started',
  'focus-end': ({ position }) => `autofocus finished at position ${position}`,
  'filter-begin': ({ to }) => `filter change to ${to} started`,
  'filter-end': ({ to }) => `filter change to ${to} finished`,
  'slew-begin': ({ target }) => `slew to ${target} started`,
  'slew-end': ({ target }) => `slew to ${target} finished`,
  'centre-begin': () => 'centering started',
  'centre-end': () => 'centering finished',
  'flip-begin': () => 'meridian flip started',
  'flip-end': () => 'meridian flip finished',
  'guiding-begin': () => 'guiding started',
  'guiding-end': () => 'guiding stopped',
  'guiding-rest-begin': () => 'guiding paused',
  'guiding-rest-end': () => 'guiding resumed',
  'star-gap-begin': () => 'guide star lost',
  'star-gap-end': () => 'guide star found again',
  'hold-begin': () => 'clouds, waiting: on hold',
  'hold-end': () => 'clouds gone, hold is over',
  cooler: ({ temperature, setpoint }) => `cooler at ${temperature} C, setpoint ${setpoint} C`,
  chatter: ({ x }) => `wind ${x} m/s`,
};

/** A night that goes past midnight, and whose date no other order of its parts could be. */
const NIGHT = inventedNight(11);

describe('the times of an untouched draft', () => {
  it.each([...some(STAMP_STYLES, 4), ...some(COMPLICATIONS, 3)])(
    'are right where stamps are $id',
    async ({ id, write }) => {
      const { name, lines } = write(
        NIGHT.map(({ atMs, event, facts }) => ({ atMs, text: WORDINGS[event]?.(facts) ?? event })),
      );
      const log = `${id}-${name}`;
      writeFileSync(join(folder, log), `${lines.join('\n')}\n`);
      const truth = NIGHT.filter(({ event }) => event !== 'chatter');
      writeFileSync(
        join(folder, log.replace(/\.[^.]+$/, '.truth.jsonl')),
        truth.map(({ atMs, event }) => `${JSON.stringify({ at: new Date(atMs).toISOString(), event })}\n`).join(''),
      );
      const score = await scoreLog(folder, log);
      expect(score.right / score.truth, scoreLine(score)).toBeGreaterThan(0.97);
      expect(score.wrong / score.truth, scoreLine(score)).toBeLessThan(0.01);
    },
  );
});
