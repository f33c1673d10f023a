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

const FRAMES = 8;

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
      if (n % 3 === 0) {
        say(
          3,
          `${focuser[side]}: refocus begins, position ${9000 + 10 * n}, star size ${(2.8 + n / 50).toFixed(2)} px, tube 7.${n % 10} C`,
        );
        if (n === 6) say(61, `${focuser[side]}: refocus failed (${side === 0 ? 'too few stars' : 'no minimum'})`);
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
      expect(trains.length, name).toBeGreaterThan(4);
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

describe('a last column that gives a reason', () => {
  const rows = (seen: readonly string[]): string[] =>
    seen.flatMap((why, n) => {
      const at = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 7 * n, seconds)).toISOString();
      const rest = why === '' ? [`${at(301)}\theron\texposure\tends`] : [`${at(99)}\theron\texposure\taborted\t${why}`];
      return [`${at(0)}\theron\texposure\tbegins\t300 s`, ...rest];
    });

  it('is one also where lines differ in it, of one word or several', async () => {
    const seen = ['', '', '', 'cloud', '', '', '', 'satellite flare', '', '', '', 'cloud', '', '', '', ''];
    const lines = rows(seen);
    const { events } = await read(drafted(lines).yaml, lines.join('\n'));
    const why = of(events, 'exposure-abort').map((one) => ('why' in one ? one.why : undefined));
    expect(why).toEqual(seen.filter((text) => text !== ''));
  });
});

describe('two signed numbers with a stroke between them', () => {
  it('are two numbers, and guiding errors, not a path', async () => {
    const lines = Array.from({ length: 30 }, (_, n) => {
      const at = new Date(Date.UTC(2026, 9, 14, 20, 0, 3 * n)).toISOString();
      const error = (k: number): string => (Math.sin(1.7 * n + k) / 2).toFixed(2).replace(/^(?=\d)/, '+');
      return `${at}  STAR | e ${error(0)}/${error(1)}`;
    });
    const all = ['# STAR "e a/b": deviation RA/Dec in arcsec', ...lines];
    const { guiding } = await read(drafted(all).yaml, all.join('\n'));
    expect(guiding?.raArcsec.length).toBe(30);
    expect(guiding?.raArcsec[1]).toBeCloseTo(Math.sin(1.7) / 2, 2);
  });
});

describe('filters that a log gives by the slots of the wheel', () => {
  /** A wheel that turns between frames; `{from}`, `{to}` are slots. */
  const wheel = (head: readonly string[], turns: string, opens: string): string[] => {
    const lines = ['# all times in UTC', ...head];
    let atMs = Date.UTC(2026, 9, 14, 19, 30, 0);
    const say = (after: number, text: string): void => {
      atMs += after * 1000;
      lines.push(`${new Date(atMs).toISOString().slice(0, 19).replace('T', ' ')}  ${text}`);
    };
    let slot = 1;
    for (let n = 0; n < 12; n++) {
      if (n % 4 === 0) {
        const to = (slot % 3) + 1;
        say(2, turns.replace('{from}', String(slot)).replace('{to}', String(to)));
        say(4, `wheel stopped at slot ${to}`);
        slot = to;
      }
      say(3, opens.replace('{to}', String(slot)));
      say(120, 'shutter closes');
    }
    return lines;
  };
  const filters = async (lines: readonly string[], name: LogEvent['event'], field: string): Promise<unknown[]> => {
    const { events } = await read(drafted(lines).yaml, lines.join('\n'));
    return of(events, name).map((event) => (event as unknown as Record<string, unknown>)[field]);
  };
  const HEAD = ['# slots: 1=L 2=Ha 3=OIII'];
  const turned = ['Ha', 'OIII', 'L'];

  it.each([
    ['the new one alone', 'wheel turns to slot {to}'],
    ['from one to another', 'wheel turns {from}>{to}'],
  ])('have their names by the head: %s', async (_, turns) => {
    const lines = wheel(HEAD, turns, 'shutter opens, 120 s, slot {to}');
    expect(await filters(lines, 'filter-begin', 'to')).toEqual(turned);
    expect(await filters(lines, 'filter-end', 'to')).toEqual(turned);
    expect(await filters(lines, 'exposure-begin', 'filter')).toEqual(turned.flatMap((one) => [one, one, one, one]));
  });

  it('have none where the head names other things by numbers, or lacks a slot', async () => {
    const named = (head: string): Promise<unknown[]> =>
      filters(wheel([head], 'wheel turns to slot {to}', 'shutter opens, 120 s, slot {to}'), 'exposure-begin', 'filter');
    expect(new Set(await named('# cameras: 1=east 2=west 3=north'))).toEqual(new Set([undefined]));
    expect(new Set(await named('# slots: 1=L 2=Ha'))).toEqual(new Set([undefined]));
  });
});
