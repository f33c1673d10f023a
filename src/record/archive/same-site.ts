import { isSameSite } from '../../model/index.js';
import type { SessionRecord } from '../schema.js';

/** Whether two records may be of one site; a record that names none may be of any. */
export function mayBeSameSite(a: SessionRecord['site'], b: SessionRecord['site']): boolean {
  return (
    a === null ||
    b === null ||
    isSameSite(
      { latitudeDeg: a.latitude, longitudeDeg: a.longitude },
      { latitudeDeg: b.latitude, longitudeDeg: b.longitude },
    )
  );
}
