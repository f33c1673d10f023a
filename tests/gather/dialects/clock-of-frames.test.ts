import { describe, expect, it } from 'vitest';
import { draftDialect, type FrameTimes } from '../../../src/gather/dialects/index.js';
import { bestFits, fitAt } from '../../../src/gather/dialects/draft/frames/coincidence.js';
import { readBeside } from '../../../src/gather/dialects/draft/frames/read-beside.js';

const EVENING_MS = Date.UTC(2026, 9, 14, 18, 0, 0);
const NIGHT = { zone: 'Europe/Madrid', sessionDate: '2026-10-14' };

/** Two trains that expose for an evening; every fifth frame a dither. */
const EXPOSURES = Array.from({ length: 36 }, (_, i) => ({
  train: i % 2 === 0 ? 'heron' : 'wren',
  beginMs: EVENING_MS + (i >> 1) * 314_000 + (i >> 3) * 97_000 + (i % 2) * 21_000,
}));
const FRAMES: readonly FrameTimes[] = EXPOSURES.map(({ train, beginMs }, i) => ({
  file: `${train}/${i}.fits`,
  beginMs: beginMs + 400 + ((i * 37) % 11) * 150,
  seconds: 300,
  train,
}));

/** A log of these exposures, its stamps as given. */
function logOf(stamp: (atMs: number, line: number) => string, head: readonly string[] = []): readonly string[] {
  const said = EXPOSURES.flatMap(({ train, beginMs }) => [
    { atMs: beginMs, text: `${train} exposure begins, Ha, 300 s` },
    { atMs: beginMs + 300_000, text: `${train} exposure ends` },
  ]).sort((a, b) => a.atMs - b.atMs);
  return [...head, ...said.map(({ atMs, text }, i) => `${stamp(atMs, i + 1)} ${text}`)];
}

const two = (value: number): string => String(value).padStart(2, '0');
/** Digits of a clock so many hours ahead of UTC. */
const clock = (atMs: number, hours: number, mark = ':'): string => {
  const at = new Date(atMs + hours * 3_600_000);
  return [at.getUTCHours(), at.getUTCMinutes(), at.getUTCSeconds()].map(two).join(mark);
};

function drafted(lines: readonly string[], frames = FRAMES) {
  const sample = {
    file: 'night.log',
    encoding: 'utf-8',
    lineEnding: 'LF' as const,
    lines,
    totalLines: lines.length,
    warnings: [],
  };
  const { yaml, report } = draftDialect(sample, { frames, night: NIGHT });
  const { begins } = readBeside(sample, report, NIGHT);
  return {
    yaml,
    report,
    right: fitAt(
      begins,
      EXPOSURES.map(({ beginMs }) => beginMs).sort((a, b) => a - b),
      0,
      1100,
    ).pairs,
  };
}

describe('instants of a log and of frames', () => {
  it('are put together by the shift under which most fall on each other', () => {
    const starts = FRAMES.map(({ beginMs }) => beginMs).sort((a, b) => a - b);
    const ahead = starts.map((ms) => ms + 437_000);
    expect(bestFits(ahead, starts, 4000)[0]).toMatchObject({ shiftMs: 437_000, pairs: starts.length });
  });
});

describe('a draft beside the frames of the session', () => {
  it('has the zone that they prove, whatever the log says', () => {
    const { yaml, right } = drafted(logOf((ms) => `2026-10-15 ${clock(ms, 9)}`, ['# all times UTC']));
    expect(right).toBe(EXPOSURES.length);
    expect(yaml).toContain("zone: '+09:00'        # with it, exposures begin when the frames do");
    expect(yaml).toContain('36 of the 36 exposures that could begin when a frame does do so');
  });

  it('counts from the instant that they give where no line says from when', () => {
    // Seconds since noon of the site, two hours ahead of UTC.
    const noonMs = Date.UTC(2026, 9, 14, 10);
    const { yaml, right } = drafted(
      logOf((ms) => ((ms - noonMs) / 1000).toFixed(1), ['seconds after noon, 14 October 2026']),
    );
    expect(right).toBe(EXPOSURES.length);
    expect(yaml).toContain("- from: '2026-10-14T10:00:00.000Z'   # LOOK AT THIS: by the session's frames");
  });

  it('reads digits that nothing explains where lines coincide with the frames', () => {
    const { yaml, right } = drafted(
      logOf((ms, i) => `NR ${String(i).padStart(4, '0')} 14${clock(ms, 0, '').slice(0, 4)}.${clock(ms, 0).slice(-2)}Z`),
    );
    expect(yaml).toContain('{digit}{digit}{hour}{minute}.{second}');
    expect(right).toBe(EXPOSURES.length);
  });

  it('takes off what the clock was ahead', () => {
    const { report, right } = drafted(logOf((ms) => `2026-10-14 ${clock(ms + 97_000, 2)}`));
    expect(report.ahead).toBeGreaterThan(95);
    expect(report.ahead).toBeLessThan(97.5);
    expect(right).toBe(EXPOSURES.length);
  });

  it('gives no times where its exposures are not those of the frames', () => {
    const others = FRAMES.map((frame, i) => ({ ...frame, beginMs: EVENING_MS + i * 211_000 + ((i * i) % 7) * 33_000 }));
    const { yaml, report } = drafted(
      logOf((ms) => `2026-10-14 ${clock(ms, 2)}`),
      others,
    );
    expect(report.clockDoubts?.join()).toMatch(/^only \d+ of the 36 exposures/);
    expect(yaml.split('\n').slice(1, 3).join(' ')).toMatch(
      /THE CLOCK OF THIS LOG IS NOT UNDERSTOOD.* only \d+ of the 36/,
    );
    expect(yaml).toContain('\ntime:\n  pattern: "{epoch}"\n');
  });
});
