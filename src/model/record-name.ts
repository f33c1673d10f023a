/** Named after the evening's date, as the archive names its records. */
const RECORD_NAME = /^\d{4}-\d{2}-\d{2}(\.[^/\\]+)?\.json$/;

/** Whether this is an archive's record name. */
export function isRecordName(name: string): boolean {
  return RECORD_NAME.test(name);
}
