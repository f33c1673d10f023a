import nodePath, { type PlatformPath } from 'node:path';

/** Whether a path lies in a folder, or is the folder. From one drive or share to another there is no way. */
export function isWithin(holder: string, path: string, paths: PlatformPath = nodePath): boolean {
  const way = paths.relative(holder, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${paths.sep}`) && !paths.isAbsolute(way));
}
