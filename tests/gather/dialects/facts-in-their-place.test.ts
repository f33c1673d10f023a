import { beforeAll, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

// The night and its wordings are invented; what a log says of its trains, and how, is common practice, no source.

/** Two trains under short names; `{a}` and `{b}` are the trains, `{x}` stands before devices' names. */
interface Names {
  readonly head: string;
  readonly camera: readonly [string, string];
  readonly focuser: readonly [string, string];
}

const FRAMES = 16;

function night({ head, camera, focuser }: Names): string[] {
  const made: { readonly atMs: number; readonly text: string }[] = [];
  const startMs = Date.UTC(2026, 9, 14, 19, 30, 0);
  for (const side of [0, 1] as const) {
    let atMs = startMs + 7000 * side;
    const say = (after: number, text: string): void => {
      atMs += after * 1000;
      made.push({ atMs, text });
    };
    for (let n = 0; n < FRAMES; n++) {
      if (n % 5 === 0) {
        say(
          3,
          `${focuser[side]}: refocus begins, position ${9000 + 10 * n}, star size ${(2.8 + n / 50).toFixed(2)} px, tube 7.${n % 10} C`,
        );
        if (n === 5) say(61, `${focuser[side]}: refocus failed (${side === 0 ? 'too few stars' : 'no minimum'})`);
        else
          say(
            60,
            `${focuser[side]}: refocus done, position ${9004 + 10 * n}, star size ${(2.1 + n / 50).toFixed(2)} px`,
          );
      }
      say(4, `${camera[side]}: exposure begins, 300 s, filter ${side === 0 ? 'Ha' : 'L'}`);
      if (n === 7) {
        say(90, `${camera[side]}: exposure aborted after 90 s: ${side === 0 ? 'passing cloud' : 'stopped by hand'}`);
        continue;
      }
      say(300, `${camera[side]}: exposure ends`);
    }
  }
  const lines = made
    .sort((a, b) => a.atMs - b.atMs)
    .map(({ atMs, text }) => `${new Date(atMs).toISOString().slice(0, 19).replace('T', ' ')}  ${text}`);
  return ['# all times in UTC', head, ...lines].filter((line) => line !== '');
}

const of = (events: readonly LogEvent[], name: LogEvent['event']): readonly LogEvent[] =>
  events.filter(({ event }) => event === name);

describe('trains that a log calls by short names', () => {
  it.each([
    ['letters that its head explains', '# A = heron (pilot), B = wren', ['[A]', '[B]'], ['[A]', '[B]']],
    ['devices with a number that it explains', '# -1 = heron, -2 = wren', ['CAM-1', 'CAM-2'], ['FOC-1', 'FOC-2']],
    ['ports of trains', '# ports h.* = train heron, w.* = train wren', ['h.cam', 'w.cam'], ['h.foc', 'w.foc']],
    ['their names before their devices', '', ['heron-cam', 'wren-cam'], ['heron-foc', 'wren-foc']],
  ] as const)('are given their own names: %s', async (_, head, camera, focuser) => {
    const lines = night({ head, camera, focuser });
    const { events } = await read(drafted(lines).yaml, lines.join('\n'));
    for (const name of ['exposure-begin', 'exposure-end', 'focus-begin'] as const) {
      const trains = of(events, name).map(({ train }) => train);
      expect(trains.length, name).toBeGreaterThan(5);
      expect(trains.filter((train) => train === 'heron').length, name).toBe(trains.length / 2);
      expect(trains.filter((train) => train === 'wren').length, name).toBe(trains.length / 2);
    }
  });

  it('keep names that are words, whatever the head says of them', () => {
    const names = ['heron', 'wren'] as const;
    const lines = night({ head: '# Pilot: heron. Companion: wren', camera: names, focuser: names });
    expect(drafted(lines).report.trains).toEqual({});
  });
});

describe('what a line states of a refocus or an abort', () => {
  const names = ['heron', 'wren'] as const;
  const lines = night({ head: '', camera: names, focuser: names });
  let events: readonly LogEvent[] = [];
  beforeAll(async () => {
    ({ events } = await read(drafted(lines).yaml, lines.join('\n')));
  });

  it('is kept at its beginning: where the focuser stood, how wide stars were, how warm it was', () => {
    const [first] = of(events, 'focus-begin');
    expect(first).toMatchObject({ position: 9000, sizeBefore: 2.8, temperature: 7 });
  });

  it('is the new size at its end, where one size stands alone', () => {
    expect(of(events, 'focus-end')[0]).toMatchObject({ position: 9004, sizeAfter: 2.1 });
  });

  it('has the reason behind a colon or in brackets, of one word or several', () => {
    const why = (one: LogEvent): unknown => ('why' in one ? one.why : undefined);
    expect(of(events, 'exposure-abort').map(why)).toEqual(['passing cloud', 'stopped by hand']);
    expect(
      of(events, 'focus-end')
        .map(why)
        .filter((text) => text !== undefined),
    ).toEqual(['too few stars', 'no minimum']);
  });

  it('is no reason where it tells what happens', async () => {
    const more = lines.flatMap((line, i) =>
      i % 20 === 5 ? [line, `${line.slice(0, 19)}  guider: stopped`, `${line.slice(0, 19)}  guider: started`] : [line],
    );
    const read2 = await read(drafted(more).yaml, more.join('\n'));
    expect(of(read2.events, 'guiding-end').every((one) => !('why' in one))).toBe(true);
  });
});
