/** One record summarised independently, as if no other held a frame of its night. */
import type { Counting } from '../../model/index.js';
import type { FrameRecord, NightRecord } from '../schema.js';
import { peekRecordFile } from './files.js';
import type { Summed } from './one-reference.js';
import type { RecordPlace } from './same-site.js';
import { summarise } from './summary.js';

/** A record's summary, and what matters for its neighbours. */
export interface SummedNight {
  readonly night: string;
  readonly site: RecordPlace;
  /** First and last of the frames' begins; they sort as texts. */
  readonly begins: readonly [first: string, last: string];
  readonly summed: Summed;
}

/** Summarises the record of a file; `null` if the file holds no valid one. */
export function sumFile(archive: string, file: string, counting: Counting): SummedNight | null {
  const record = peekRecordFile(archive, file);
  return record && summedNight(file, record, record, counting);
}

/**
 * @param record of the file
 * @param settled the night as it counts: the record itself, or merged with others
 */
export function summedNight(file: string, record: NightRecord, settled: NightRecord, counting: Counting): SummedNight {
  const { night, site, frames } = record;
  const whole = { file, record: settled };
  return {
    night,
    site: site && { latitude: site.latitude, longitude: site.longitude },
    begins: beginsOf(frames),
    summed: { night: summarise(whole, counting), byClock: counting === 'clock' ? null : summarise(whole) },
  };
}

/** First and last begin; the record's instants sort as texts. */
export function beginsOf(frames: readonly FrameRecord[]): SummedNight['begins'] {
  let [first, last] = ['~', ''];
  for (const { begin } of frames) {
    if (begin < first) first = begin;
    if (begin > last) last = begin;
  }
  return [first, last];
}
