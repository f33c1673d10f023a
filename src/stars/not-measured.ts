/** Why a frame's pixels were not measured; thrown inside the stage and returned as a reason, never as an exception. */
export class NotMeasured extends Error {
  /** @param reason a clause that completes 'not measured: …' and says what can be done about it */
  constructor(readonly reason: string) {
    super(reason);
    this.name = 'NotMeasured';
  }
}

/** The reason in words, whatever was thrown. */
export function reasonOf(error: unknown): string {
  if (error instanceof NotMeasured) return error.reason;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT') return 'the file is no longer there';
  if (code === 'EACCES' || code === 'EPERM') return 'the file may not be read: check its permissions';
  if (code.startsWith('Z_') || code === 'ERR_BUFFER_TOO_LARGE')
    return 'its compressed data are damaged: copy the file again from the camera computer';
  return `its pixels could not be read (${error instanceof Error ? error.message : String(error)})`;
}
