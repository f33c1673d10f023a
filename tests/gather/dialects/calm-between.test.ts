import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const FRAMES = 24;
const LENGTH_SECONDS = 120;

class Log {
  readonly lines: string[] = [];
  private atMs = T0;

  say(text: string, afterSeconds = 0): this {
    this.atMs += afterSeconds * 1000;
    this.lines.push(`${new Date(this.atMs).toISOString().slice(0, 19)}Z  ${text}`);
    return this;
  }
}

async function countsOf({ lines }: Log): Promise<(event: string) => number> {
  const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
  return (name) => events.filter(({ event }) => event === name).length;
}

describe('a program that is calm between all that it does', () => {
  it('does nothing then: no guiding settles', async () => {
    const log = new Log().say('calm -> pointing at M 33').say('pointing -> calm', 40);
    for (let i = 0; i < FRAMES; i++) {
      log
        .say(`calm -> exposing no. ${i + 1} (M 33, filter L, ${LENGTH_SECONDS} s)`, 2)
        .say('exposing -> chip reading', LENGTH_SECONDS)
        .say(`chip reading -> calm, saved m33_${String(i).padStart(4, '0')}.fits`, 3);
      if (i % 3 === 2)
        log
          .say('calm -> shifting by 3.4 px', 1)
          .say('shifting -> settling', 3)
          .say('settling -> calm, error 0.48"', 14);
      if (i % 8 === 7) log.say('calm -> filter change to R', 1).say('filter change -> calm, R in place', 5);
    }
    const count = await countsOf(log);
    const dithers = Math.floor(FRAMES / 3);
    expect(['settling-begin', 'settling-end', 'dither-begin', 'dither-end'].map(count)).toEqual([
      dithers,
      dithers,
      dithers,
      dithers,
    ]);
    expect(['exposure-begin', 'exposure-end', 'frame-saved'].map(count)).toEqual([FRAMES, FRAMES, FRAMES]);
  });
});

describe('a log that tells of settling where guiding starts, and not after dithers', () => {
  it('tells when its dithers are over', async () => {
    const log = new Log();
    for (let i = 0; i < FRAMES; i++) {
      if (i % 12 === 0) log.say('guider: guiding starts', 4).say('guider: settling').say('guider: settled', 15);
      log
        .say(`heron: exposure starts, ${LENGTH_SECONDS} s through L`, 2)
        .say('heron: exposure ends', LENGTH_SECONDS)
        .say(`heron: saved m33_${String(i).padStart(4, '0')}.fits`, 2);
      if (i % 12 === 11) log.say('guider: guiding stops', 2);
      else if (i % 2 === 1)
        log.say('heron: waits for the dither', 1).say('mount: dither starts', 1).say('mount: dither ends', 3);
      if (i % 2 === 1) log.say('weather: 11.2 C, wind 3 m/s', 8);
    }
    const count = await countsOf(log);
    expect(['dither-begin', 'dither-end', 'settling-begin', 'settling-end'].map(count)).toEqual([10, 10, 2, 2]);
  });
});
