import { describe, expect, it } from 'vitest';
import { CURRENT_VERSION, migrate, MIGRATIONS, readRecord, toRecord, type Migration } from '../../src/record/index.js';
import { frameOf, sessionOf } from '../support/records.js';
import { replayedNight } from '../support/replayed-night.js';

const record = sessionOf('2026-10-14', 'a', [frameOf('2026-10-14', 0)]);

/** A version that never was: begins were whole seconds since the epoch. Known to these tests alone. */
const testOnly: Readonly<Record<number, Migration>> = {
  0: (old) => ({
    ...old,
    frames: (old.frames as { begin: number }[]).map((f) => ({
      ...f,
      begin: new Date(f.begin * 1000).toISOString(),
    })),
  }),
};
const old = {
  ...record,
  schema: 'nightledger/night/0',
  frames: [{ ...record.frames[0], begin: Date.parse(record.frames[0]?.begin ?? '') / 1000 }],
};

describe('the version of a record', () => {
  it('at the present one is left as it is', () => {
    expect(migrate(record)).toEqual({ ok: true, record });
  });

  it('has a migration from every version before the present one', () => {
    for (let version = 1; version < CURRENT_VERSION; version++)
      expect(MIGRATIONS[version], `from version ${version}`).toBeTypeOf('function');
  });

  it('is brought up step by step by the registered migrations', () => {
    expect(migrate(old, 1, testOnly)).toEqual({ ok: true, record: JSON.parse(JSON.stringify(record)) });
  });

  it('is brought up in the sessions of a merged night too', () => {
    expect(migrate({ ...old, parts: [old, record] }, 1, testOnly)).toMatchObject({
      ok: true,
      record: { parts: [{ schema: 'nightledger/night/1', frames: record.frames }, { frames: record.frames }] },
    });
  });

  it('that no migration knows is refused as damaged', () => {
    expect(migrate(old)).toMatchObject({ ok: false, state: 'damaged' });
  });

  it('of a newer program is refused, and the reader asked to update', () => {
    const reading = readRecord(JSON.stringify({ ...record, schema: `nightledger/night/${CURRENT_VERSION + 1}` }));
    expect(reading).toMatchObject({ ok: false, state: 'newer' });
    expect(!reading.ok && reading.why).toContain('install a newer nightledger');
  });

  it.each([['[]'], ['{}'], ['{"schema":"nightledger/progress/1"}'], ['{"schema":7}'], ['null'], ['"night"']])(
    '%s is some other JSON',
    (text) => {
      expect(readRecord(text)).toMatchObject({ ok: false, state: 'foreign' });
    },
  );
});

describe('keys that earlier programs of the same version named otherwise', () => {
  const { replay } = toRecord(replayedNight('twin-night'), 'test');
  /** The same replay with each `lostOrDoubtful` under the name that it had. */
  const before: unknown = JSON.parse(JSON.stringify(replay).replaceAll('"lostOrDoubtful":', '"spoilt":'));

  it('are read under the present name, in a night and in the sessions of one', () => {
    expect(JSON.stringify(before).match(/"spoilt":/g)?.length).toBeGreaterThan(4);
    for (const record_ of [
      { ...record, replay: before },
      { ...record, replay, parts: [{ ...record, replay: before }] },
    ]) {
      const reading = readRecord(JSON.stringify(record_));
      expect(reading).toMatchObject({ ok: true, record: { replay } });
      if (reading.ok) for (const part of reading.record.parts ?? []) expect(part.replay).toEqual(replay);
      expect(JSON.stringify(reading)).not.toContain('"spoilt"');
    }
  });

  it.each([[7], ['x'], [{ asItWas: 7, whatIfs: 'no', best: [] }], [{ asItWas: { heron: null }, whatIfs: [null] }]])(
    'are looked for in nothing that is no replay: %j',
    (damaged) => {
      expect(readRecord(JSON.stringify({ ...record, replay: damaged }))).toMatchObject({ ok: false, state: 'damaged' });
    },
  );
});
