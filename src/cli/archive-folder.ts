/** Arguments that commands about an archive share. */
import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { UsageError } from './exit-codes.js';

/** The archive that an argument names. @throws UsageError when there is none */
export function archiveFolder(path: string): string {
  const archive = resolve(path);
  const stat = statSync(archive, { throwIfNoEntry: false });
  if (!stat)
    throw new UsageError(
      `there is no folder ${path}; name an archive, as made by \`nightledger report SESSION --archive\``,
    );
  if (!stat.isDirectory()) throw new UsageError(`${path} is a file; name the folder of an archive`);
  return archive;
}
