import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { codes, read } from './support/read.js';

/** 3 December 2026, 18:12:40 UTC. */
const ZERO = Date.UTC(2026, 11, 3, 18, 12, 40);
const CYCLES = 14;
/** Errors of a star, arcseconds; pulses of the mount, ms: some look like lengths of exposures. */
const errors = (i: number): readonly [string, string, number] => [
  (Math.sin(i * 2.1) / 2).toFixed(2),
  (Math.cos(i * 1.7) / 2).toFixed(2),
  [60, -45, 120, 90, -30, 180, 20, 300][i % 8] ?? 0,
];
const SAMPLES = 15;
const EVERY_S = 45;

/** Seconds since the box was switched on: from a dither on, each row with what the box does. */
const STEPS = Array.from({ length: CYCLES }, (_, cycle) => {
  const at = 840 + cycle * 1000;
  return [
    { at, state: 'nudge' },
    { at: at + 3.4, state: 'settling' },
    { at: at + 8.4, state: 'settling' },
    { at: at + 21.2, state: 'guiding' },
    ...Array.from({ length: SAMPLES }, (_, i) => ({ at: at + 40 + i * EVERY_S, state: 'guiding' })),
    ...(cycle % 5 === 2 ? [800, 860].map((after) => ({ at: at + after, state: 'star lost' })) : []),
    ...(cycle % 5 === 2 ? [{ at: at + 900.5, state: 'guiding' }] : []),
    ...(cycle % 5 === 4 ? [790, 840, 890].map((after) => ({ at: at + after, state: 'paused' })) : []),
    ...(cycle % 5 === 4 ? [{ at: at + 950.5, state: 'guiding' }] : []),
  ];
}).flat();
const at = (seconds: number): number => ZERO + Math.round(seconds * 1000);

describe('a guide box that counts seconds since it was switched on', () => {
  it('is read where samples stand every 45 s beside numbers that look like lengths', async () => {
    const rows = STEPS.map(({ at: seconds, state }, i) => {
      const before = STEPS[i - 1]?.state ?? 'off';
      const [ra, dec, pulse] = errors(i);
      const said = state === before ? null : ({ nudge: 'nudge by 3.0 px asked', settling: 'settling' }[state] ?? null);
      const over = before === 'settling' && state === 'guiding' ? 'settled, rms 0.53' : null;
      const word = said ?? over;
      return word === null
        ? `${seconds.toFixed(1).padStart(9)}  ${ra.padStart(7)}  ${dec.padStart(7)}  ${String(pulse).padStart(5)}`
        : `${seconds.toFixed(1).padStart(9)}       --       --     --  ${word}`;
    });
    const lines = ['guide box', 'zero of clock: 2026-12-03 18:12:40 UTC', 'errors in arcsec', '', ...rows];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`);
    const begun = log.events.filter(({ event }) => event === 'dither-begin').map(({ atMs }) => atMs);
    expect(begun).toEqual(STEPS.filter(({ state }) => state === 'nudge').map((step) => at(step.at)));
  });

  it('has its samples read in a table that counts milliseconds, which the errors are no counts of', async () => {
    const rows = STEPS.map(({ at: seconds, state }, i) => {
      const [ra, dec] = errors(i);
      const cells = state === 'guiding' ? [ra, dec, ''] : ['', '', { nudge: 'dither started' }[state] ?? state];
      return [Math.round(seconds * 1000), ...cells].join(',');
    });
    const lines = ['# switched on 2026-12-03 18:12:40 UTC', 't,ra,dec,event', ...rows];
    const { yaml } = drafted(lines);
    expect(yaml).not.toContain('caught');
    const log = await read(yaml, `${lines.join('\n')}\n`);
    expect(log.guiding?.atMs.length).toBe(STEPS.filter(({ state }) => state === 'guiding').length);
  });

  it('tells by the difference of two rows what it does, where each row states that beside the errors', async () => {
    const rows = [{ at: 100, state: 'off' }, { at: 220, state: 'off' }, { at: 340, state: 'guiding' }, ...STEPS].map(
      ({ at: seconds, state }, i) => {
        const [ra, dec, pulse] = errors(i);
        const cells = state === 'guiding' || state === 'settling' ? [ra, dec, pulse] : ['', '', ''];
        return [seconds.toFixed(1), state, ...cells, state === 'nudge' ? '3.0' : ''].join(',');
      },
    );
    const lines = ['# switched on 2026-12-03 18:12:40 UTC', 't,state,ra_as,dec_as,ra_pulse,nudge_px', ...rows];
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
    expect(codes(log)).toEqual([]);
    const timesOf = (name: string): number[] =>
      log.events.filter(({ event }) => event === name).map(({ atMs }) => atMs);
    const entered = (state: string): number[] =>
      STEPS.filter((step, i) => step.state === state && STEPS[i - 1]?.state !== state).map((step) => at(step.at));
    expect(timesOf('dither-begin')).toEqual(entered('nudge'));
    expect(timesOf('dither-end')).toEqual(entered('settling'));
    expect(timesOf('settling-begin')).toEqual(entered('settling'));
    expect(timesOf('settling-end')).toHaveLength(CYCLES);
    expect(timesOf('star-gap-begin')).toEqual(entered('star lost'));
    expect(timesOf('guiding-rest-begin')).toEqual(entered('paused'));
    expect(log.guiding?.atMs.length).toBeGreaterThan(CYCLES * SAMPLES);
  });
});
