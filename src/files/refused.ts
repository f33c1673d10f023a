/** Why a file could not be read, and what to do: completes "… could not be read". */
export function refused(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'EACCES' || code === 'EPERM') return '(permission denied); check its permissions';
  if (code === 'ELOOP') return '(links that form a loop); fix or remove the link';
  if (code === 'ENOENT')
    return '(it is gone, or a link to something that is gone); remove the link or restore the ' + 'file';
  const why = error instanceof Error ? error.message : String(error);
  return `(${why.split(',', 1).join()}); check the disk, or its network`;
}
