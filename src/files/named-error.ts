/**
 * The file system's own error, naming the intended file: a full disk is noticed while writing, and then the error names
 * no file; if a temporary file is written first, it names one that the user does not know.
 *
 * @param error whatever was thrown; anything but a file system error is returned unchanged
 * @param path the file as the user knows it
 */
export function namedError(error: unknown, path: string): unknown {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return error;
  return Object.assign(error, { path });
}
