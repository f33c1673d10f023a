import { describe, expect, it } from 'vitest';
import type { LogEvent } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** Words of a log about its refocuses and files; `{n}` counts, `{before}` and `{after}` are star sizes. */
interface Words {
  readonly focused: string;
  readonly failed: string;
  readonly saved: string;
  readonly calm?: string;
  readonly restless?: string;
}

const RUNS = 8;
const FAILED = 5;
const FRAMES = 24;

const sizesOf = (run: number): { before: number; after: number } => ({
  before: Math.round(100 * (2.9 + 0.07 * run)) / 100,
  after: Math.round(100 * (2.3 + 0.04 * run)) / 100,
});

/** A night of 24 frames: after each third, a dither and a refocus; the sixth of these comes to nothing. */
function night({
  focused,
  failed,
  saved,
  calm = 'guiding calm',
  restless = 'guiding not calm, given up',
}: Words): string[] {
  const lines: string[] = ['all times in UTC'];
  let atMs = Date.UTC(2026, 9, 14, 19, 30, 11);
  const say = (afterSeconds: number, text: string): void => {
    atMs += afterSeconds * 1000;
    lines.push(`${new Date(atMs).toISOString()} ${text}`);
  };
  for (let n = 0; n < FRAMES; n++) {
    say(4, `exposure ${n + 1} begins, 300 s, filter Ha`);
    say(300, `exposure ${n + 1} ends`);
    say(2, saved.replace('{n}', String(n + 1).padStart(4, '0')));
    if (n % 3 !== 2) continue;
    const run = Math.floor(n / 3);
    const { before, after } = sizesOf(run);
    say(3, 'dither begins, 3.1 px');
    say(2, 'dither ends');
    say(0, 'waiting for the guiding to settle');
    say(run === FAILED ? 60 : 11, run === FAILED ? restless : calm);
    say(2, 'refocus begins');
    const text = run === FAILED ? failed : focused;
    say(
      88,
      text
        .replace('{before}', before.toFixed(2))
        .replace('{after}', (run === FAILED ? before + 0.4 : after).toFixed(2))
        .replace('{position}', String(11_200 + 7 * run)),
    );
  }
  return lines;
}

async function eventsOf(words: Words): Promise<readonly LogEvent[]> {
  const lines = night(words);
  return (await read(drafted(lines).yaml, lines.join('\n'))).events;
}

const PLAIN: Words = {
  focused: 'refocus done, position {position}, stars from {before} to {after} px',
  failed: 'refocus failed, back to {position}',
  saved: 'saved M33-Ha-{n}.fits',
};
const of = <E extends LogEvent['event']>(events: readonly LogEvent[], name: E): Extract<LogEvent, { event: E }>[] =>
  events.filter((one): one is Extract<LogEvent, { event: E }> => one.event === name);

describe('what a draft reads of refocuses', () => {
  it.each([
    ['from one to the other', PLAIN.focused],
    ['the newer one first', 'refocus done, position {position}, stars {after} px, were {before}'],
    ['words behind the numbers', 'refocus done at {position}, {before} px before, {after} px now'],
    ['two numbers alone', 'refocus done {position} {before} {after}'],
    ['an arrow', 'refocus done, position {position}, stars {before} > {after}'],
    ['a temperature between', 'refocus done {position}: size {before}, tube 3.4 °C, size {after}'],
  ])('finds the sizes before and after: %s', async (_, focused) => {
    const ends = of(await eventsOf({ ...PLAIN, focused }), 'focus-end');
    expect(ends).toHaveLength(RUNS);
    ends.forEach((end, run) => {
      if (run === FAILED) return;
      const { before, after } = sizesOf(run);
      expect(end).toMatchObject({ sizeBefore: before, sizeAfter: after, position: 11_200 + 7 * run });
    });
  });

  it.each([
    ['English', 'refocus failed, back to {position}'],
    ['German', 'refocus gescheitert, zurück auf {position}'],
    ['Spanish', 'refocus fallido, vuelve a {position}'],
    ['a code', 'refocus ended, result bad'],
  ])('says that one came to nothing, %s', async (_, failed) => {
    const ends = of(await eventsOf({ ...PLAIN, failed }), 'focus-end');
    expect(ends.map(({ ok }) => ok)).toEqual(
      Array.from({ length: RUNS }, (_, run) => (run === FAILED ? false : undefined)),
    );
  });

  it('takes no run for a failure that was worth its while in words of failure', async () => {
    const focused = 'refocus done without errors, position {position}, stars no larger than {after} px';
    const ends = of(await eventsOf({ ...PLAIN, focused }), 'focus-end');
    expect(ends.filter(({ ok }) => ok === false)).toHaveLength(1);
  });
});

describe('what a draft reads of settling', () => {
  it.each([
    ['given up', 'guiding not calm, given up'],
    ['a limit of time', 'guiding calm: timeout'],
  ])('says that the stars did not come to rest: %s', async (_, restless) => {
    const ends = of(await eventsOf({ ...PLAIN, restless }), 'settling-end');
    expect(ends.map(({ ok }) => ok)).toEqual(
      Array.from({ length: RUNS }, (_, run) => (run === FAILED ? false : undefined)),
    );
  });
});

describe('what a draft reads of files', () => {
  it.each([
    ['an object in front', 'saved M33-Ha-{n}.fits', 'M33-Ha-0007.fits'],
    ['points', 'saved NGC7000.Ha.{n}.fits, 812 stars', 'NGC7000.Ha.0007.fits'],
    ['capitals', 'stored as H{n}.FIT', 'H0007.FIT'],
    ['a folder of the object', 'saved NGC281/Ha{n}.fits', 'NGC281/Ha0007.fits'],
    ['a drive', 'saved to D:\\night\\ngc281_{n}.fits', 'D:\\night\\ngc281_0007.fits'],
  ])('has the whole name: %s', async (_, saved, seventh) => {
    const files = of(await eventsOf({ ...PLAIN, saved }), 'frame-saved').map(({ file }) => file);
    expect(files).toHaveLength(FRAMES);
    expect(files[6]).toBe(seventh);
  });
});
