/**
 * The file system's own error, with the file that was meant: a full disk is noticed while writing, and then the error
 * names no file; where something is written beside its place first, it names one that nobody asked for.
 *
 * @param error whatever was thrown; what is no error of the file system is given back as it is
 * @param path the file as the user knows it
 */
export function namedError(error: unknown, path: string): unknown {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return error;
  return Object.assign(error, { path });
}
