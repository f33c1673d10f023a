import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

describe('a stamp behind a word that differs', () => {
  it('is one form, and the lines of seldom words are read by it, too', () => {
    const lines = Array.from({ length: 60 }, (_, i) => {
      const level = i % 20 === 7 ? 'WARN ' : i % 3 === 0 ? 'DEBUG' : 'INFO ';
      const at = new Date(Date.UTC(2026, 9, 14, 20, i, 10)).toISOString().slice(0, 19);
      return `${level} ${at} ${i % 3 === 0 ? 'air 12 C' : i % 20 === 7 ? 'guide star lost' : 'shutter open 300 s'}`;
    });
    const { report } = drafted(lines);
    expect(report.stamp?.more ?? []).toEqual([]);
    expect(report.stamp?.coverage).toBe(1);
  });
});

const two = (value: number): string => String(value).padStart(2, '0');

describe('two forms of time in one log', () => {
  it('are both read in the fields of records', () => {
    const lines = Array.from({ length: 40 }, (_, i) => {
      const clock = `21:${two(i)}:10`;
      const isNewer = i % 4 === 3;
      const [date, what] = isNewer
        ? [`2026-10-14 ${clock}`, 'guide star lost']
        : [`14.10.2026 ${clock}`, i % 4 === 0 ? 'exposure begins' : i % 4 === 1 ? 'exposure ends' : 'frame saved'];
      return JSON.stringify({ at: date, what, train: 'heron', seconds: 60 });
    });
    const { report } = drafted(lines);
    expect(report.date.from).toBe('line');
    expect(report.stamp?.coverage).toBe(1);
    expect(report.stamp?.more).toHaveLength(1);
  });

  it('tell the zone of the one that states none', () => {
    const lines = Array.from({ length: 60 }, (_, i) =>
      i % 3 === 2
        ? `{"t": "2026-10-14T19:${two(i)}:12Z", "did": "frame saved", "name": "a${i}.fits"}`
        : `14/10/2026 21:${two(i)}:${i % 3 === 0 ? '05' : '06'} ${i % 3 === 0 ? 'shutter opens for 60 s' : 'shutter closes'}`,
    );
    const { report, yaml } = drafted(lines);
    expect(report.stamp?.coverage).toBe(1);
    expect(report.zone).toBe('+02:00');
    expect(yaml).toContain("zone: '+02:00'");
    const saved = report.rules.find(({ events }) => events.some(({ event }) => event === 'frame-saved'));
    expect(saved?.count).toBe(20);
  });

  it('are not taken together where they are hours apart and neither states its zone', () => {
    const lines = Array.from({ length: 60 }, (_, i) =>
      i % 3 === 2
        ? `2026-10-14 19:${two(i)}:12 frame saved as a${i}.fits`
        : `14/10/2026 21:${two(i)}:${i % 3 === 0 ? '05' : '06'} ${i % 3 === 0 ? 'shutter opens for 60 s' : 'shutter closes'}`,
    );
    const { report } = drafted(lines);
    expect(report.stamp?.more).toBeUndefined();
    expect(report.stamp?.coverage).toBeCloseTo(2 / 3, 5);
  });

  it('are a count that starts again and the times of another program, which tell its zone', () => {
    const night = (clock: string, fromHour: number): string[] => [
      `--- program started 14 October 2026 ${clock}, seconds since then ---`,
      ...Array.from({ length: 30 }, (_, i) =>
        i % 3 === 2
          ? `star 2026-10-14 ${two(fromHour)}:${two(i + 1)}:02 UTC: guide star lost at ${i} px`
          : `  ${((i + 1) * 60 + (i % 3)).toFixed(1)}  ${i % 3 === 0 ? 'shutter opens for 60 s' : 'shutter closes'}`,
      ),
    ];
    const { report } = drafted([...night('20:00:00', 18), ...night('23:00:00', 21)]);
    expect(report.stamp?.pattern).toContain('{elapsed}');
    expect(report.stamp?.more).toHaveLength(1);
    expect(report.sections).toHaveLength(1);
    expect(report.zone).toBe('+02:00');
  });
});
