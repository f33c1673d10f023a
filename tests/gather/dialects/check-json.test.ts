import { describe, expect, it } from 'vitest';
import { agreement, agreementNote } from '../../../src/gather/dialects/check/agreement.js';
import { saidBy } from '../../../src/model/index.js';
import { checkJson, eventLogText } from '../../../src/gather/dialects/check/check-json.js';
import { checkDialect, loadDialect } from '../../../src/gather/dialects/index.js';
import { readEventLog } from '../../../src/gather/event-log/index.js';
import { withLog } from '../lines/support/temp-log.js';

const DIALECT = `
dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc }
lines:
  - { when: 'up for (?<seconds>\\d+) s', event: exposure-begin }
  - { when: '^down', event: exposure-end }
guiding: { when: 'err (?<x>[-\\d.]+) (?<y>[-\\d.]+)', ra: x, dec: y }
ignore: ['^fan']
`;
const LOG = [
  '2026-10-14 20:00:00 up for 60 s',
  '2026-10-14 20:00:10 err 3.0 4.0',
  '2026-10-14 20:00:12 err -3.0 -4.0',
  '2026-10-14 20:00:20 fan at 20 %',
  '2026-10-14 20:00:30 who knows',
  '2026-10-14 20:01:00 down',
].join('\n');

describe('a check as data', () => {
  it('gives events, guiding and what became of the lines', async () => {
    await withLog(LOG, async (root, name) => {
      const { dialect } = loadDialect('d.yaml', DIALECT);
      if (dialect === null) throw new Error('the dialect does not load');
      expect(checkJson(await checkDialect(root, name, dialect))).toEqual({
        events: [
          { at: '2026-10-14T20:00:00.000Z', event: 'exposure-begin', seconds: 60 },
          { at: '2026-10-14T20:01:00.000Z', event: 'exposure-end' },
        ],
        // 3 and 4 arcseconds on two axes are 5 on the sky.
        guiding: { samples: 2, rmsArcsec: 5, cadenceSeconds: 2 },
        coverage: { matched: 4, ignored: 1, unmatched: 1 },
      });
    });
  });

  it('gives an event log that reads as the same events', async () => {
    await withLog(LOG, async (root, name) => {
      const { dialect } = loadDialect('d.yaml', DIALECT);
      if (dialect === null) throw new Error('the dialect does not load');
      const { read } = await checkDialect(root, name, dialect);
      await withLog(eventLogText(read.events), async (again, log) => {
        const events = (await readEventLog(again, log)).events;
        expect(events.map(saidBy)).toEqual(read.events.map(saidBy));
      });
    });
  });
});

describe('exposures of a log and frames', () => {
  const startMs = Date.UTC(2026, 9, 14, 20);
  const events = [0, 310, 640, 980, 1300].map((seconds) => ({
    atMs: startMs + seconds * 1000,
    event: 'exposure-begin' as const,
    source: { file: 'a.log', line: 1 },
  }));
  const frames = (shiftMs: number) =>
    events.map(({ atMs }, i) => ({ file: `${i}.fits`, beginMs: atMs + shiftMs, seconds: 300 }));

  it('agree where they begin together', () => {
    expect(agreement(events, frames(-500))).toEqual({
      frames: 5,
      exposures: 5,
      agreeing: 5,
      strangers: [],
      groups: [],
      aheadSeconds: 0.5,
      zoneMinutes: 0,
    });
  });

  it('show a wrong zone', () => {
    const found = agreement(events, frames(-2 * 3_600_000));
    expect(found).toMatchObject({ agreeing: 5, zoneMinutes: 120 });
    expect(found && agreementNote(found)).toContain('off by +2 h');
  });

  it('say nothing without frames', () => {
    expect(agreement(events, [])).toBeNull();
  });
});
