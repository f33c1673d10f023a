import { isSameSite } from '../../model/index.js';
import type { SessionRecord } from '../schema.js';

/** Where a record says that it was made. */
export type RecordPlace = Pick<NonNullable<SessionRecord['site']>, 'latitude' | 'longitude'> | null;

/** Whether two records may be of one site; a record that names none may be of any. */
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
