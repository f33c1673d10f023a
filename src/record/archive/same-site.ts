import { isSameSite } from '../../model/index.js';
import type { SessionRecord } from '../schema.js';

/** The site of a record. */
export type RecordPlace = Pick<NonNullable<SessionRecord['site']>, 'latitude' | 'longitude'> | null;

/** Whether two records may be of one site; a record without a site may be of any. */
export function mayBeSameSite(a: RecordPlace, b: RecordPlace): boolean {
  return (
    a === null ||
    b === null ||
    isSameSite(
      { latitudeDeg: a.latitude, longitudeDeg: a.longitude },
      { latitudeDeg: b.latitude, longitudeDeg: b.longitude },
    )
  );
}
