/** Readers of untrusted text, given texts that nobody would write: they answer, or refuse with a message; never anything else. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ConfigError, parseGoals, parseRig } from '../../src/config/index.js';
import { loadDialect } from '../../src/gather/dialects/index.js';
import { readEventLog } from '../../src/gather/event-log/index.js';
import { EVENT_NAMES, type EventFields } from '../../src/model/index.js';
import { archivedNights } from '../../src/archive.js';
import { readRecord } from '../../src/record/index.js';
import { writeFiles } from '../support/generator/samples.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { sessionOf } from '../support/records.js';
import { spoilt, value } from './support/spoilt.js';
import { runs } from '../support/runs.js';

cleanUp();

/** Runs a reader that may refuse with a ConfigError, whose every problem names the file. */
function answersOrRefuses(name: string, read: () => unknown): void {
  try {
    read();
  } catch (error) {
    expect(error).toBeInstanceOf(ConfigError);
    for (const line of (error as ConfigError).problems) expect(line).toContain(name);
  }
}

const RIG = {
  site: { name: 'x', latitude: 40, longitude: -1, elevation: 100, timezone: 'Europe/Madrid', horizon: [[0, 10]] },
  darkness: 'nautical',
  trains: [
    {
      id: 'heron',
      frames: ['*.fits'],
      match: { TELESCOP: 'h' },
      filters: { Ha: { width: 3 } },
      logs: [{ files: '*' }],
    },
  ],
  guiding: { source: 'off-axis', train: 'heron', logs: ['g.csv'] },
  targets: [{ name: 'M 33', ra: '01:33:51', dec: '+30:39', goals: { Ha: '12h' }, goalsPerTrain: { heron: { L: 2 } } }],
  rules: { motionGrace: 1 },
};
const DIALECT = {
  dialect: 1,
  time: { pattern: '{year}-{month}-{day} {hour}:{minute}', zone: 'utc' },
  constants: { scale: 1.5 },
  lines: [
    { when: 'start (?<seconds>\\d+)', event: 'exposure-begin', fields: { filter: { from: '{f}', map: { a: 'b' } } } },
  ],
  guiding: { when: 'g', ra: 'a*scale', dec: 'b' },
};
const RUNS = runs(150);

describe('hostile keys, sizes and numbers', () => {
  it('in a rig file are answered or refused by name', () => {
    fc.assert(
      fc.property(spoilt(RIG), (rig) => answersOrRefuses('rig.yaml', () => parseRig('rig.yaml', JSON.stringify(rig)))),
      RUNS,
    );
  });

  it('in a goals file are answered or refused by name', () => {
    const goals = {
      targets: RIG.targets.map(({ goalsPerTrain: _, ...t }) => t),
      filters: { Ha: ['h'] },
      narrowband: ['Ha'],
    };
    fc.assert(
      fc.property(spoilt(goals), (g) =>
        answersOrRefuses('goals.yaml', () => parseGoals('goals.yaml', JSON.stringify(g))),
      ),
      RUNS,
    );
  });

  it('in a dialect are answered or reported', () => {
    fc.assert(
      fc.property(spoilt(DIALECT), (dialect) => {
        const loaded = loadDialect('d.yaml', JSON.stringify(dialect) ?? '');
        expect(loaded.dialect !== null || loaded.warnings.length > 0).toBe(true);
      }),
      RUNS,
    );
  });

  it('in an event log cost their line or field', async () => {
    const event = fc.record(
      {
        at: fc.constantFrom<unknown>('2026-10-14T21:00:00Z', '9999-12-31T00:00:00Z', '2026-10-14', 5, null),
        event: fc.oneof(fc.constantFrom<unknown>(...EVENT_NAMES), value),
        train: value,
        seconds: value,
        target: value,
        temperature: value,
      },
      { requiredKeys: ['at'] },
    );
    await fc.assert(
      fc.asyncProperty(fc.array(event, { maxLength: 8 }), async (events) => {
        const folder = tempFolder();
        writeFiles(folder, new Map([['a.jsonl', events.map((e) => JSON.stringify(e)).join('\n')]]));
        const read = await readEventLog(folder, 'a.jsonl', { train: 'heron' });
        for (const { seconds = 0, target = '' } of read.events as readonly EventFields[])
          expect(seconds <= 86_400 && target.length <= 200).toBe(true);
      }),
      runs(60),
    );
  });

  const sound: unknown = JSON.parse(JSON.stringify(sessionOf('2026-10-14', 'a', [])));
  it('in a record, alone and in an archive, are answered or reported', async () => {
    await fc.assert(
      fc.asyncProperty(spoilt(sound), async (record) => {
        const text = JSON.stringify(record) ?? '';
        const reading = readRecord(text);
        if (!reading.ok) expect(reading.why).not.toBe('');
        const archive = tempFolder();
        writeFiles(archive, new Map([['2026-10-14.json', text]]));
        const { nights, warnings } = await archivedNights(archive);
        expect(nights.length > 0 || warnings.length > 0).toBe(true);
      }),
      runs(100),
    );
  });
});
