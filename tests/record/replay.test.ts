import { describe, expect, it } from 'vitest';
import { isReplayed, type Replay } from '../../src/model/index.js';
import { nightRecordSchema, toRecord } from '../../src/record/index.js';
import { replaySchema } from '../../src/record/replay.js';
import { toReplayRecord } from '../../src/record/write-replay.js';
import { replayedNight } from '../support/replayed-night.js';

function replayOf(name: string): Replay {
  const { replay } = replayedNight(name);
  if (!isReplayed(replay)) throw new Error(`${name} was not replayed`);
  return replay;
}

describe('the replay in the record', () => {
  it.each(['twin-night', 'one-train', 'three-trains', 'headers-only', 'none-kept'])(
    'is what its schema says, in seconds: %s',
    (name) => {
      const replay = replayOf(name);
      const record = toReplayRecord(replay);
      expect(replaySchema.parse(record)).toEqual(record);
      expect(record.whatIfs.map((w) => w.id)).toEqual(replay.whatIfs.map((w) => w.id));
      for (const [i, w] of record.whatIfs.entries())
        expect(w.gainSeconds).toBeCloseTo((replay.whatIfs[i]?.gain.meanMs ?? NaN) / 1000, 2);
    },
  );

  it('stands in the night’s record, and is left out where nothing was replayed', () => {
    expect(nightRecordSchema.parse(toRecord(replayedNight('twin-night'), 'test')).replay?.runs).toBeGreaterThan(1);
    expect(toRecord(replayedNight('no-frames'), 'test').replay).toBeUndefined();
  });
});
