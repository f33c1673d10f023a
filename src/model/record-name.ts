/** Named by the evening's date, as the archive names its records. */
const RECORD_NAME = /^\d{4}-\d{2}-\d{2}(\.[^/\\]+)?\.json$/;

/** Whether an archive names a record so. */
export function isRecordName(name: string): boolean {
  return RECORD_NAME.test(name);
}
