import { homedir } from 'node:os';
import { join, win32 } from 'node:path';

/**
 * The user's folder for what can be made again (XDG Base Directory Specification; LOCALAPPDATA on Windows).
 *
 * @param name of the kind of things in it
 */
export function cacheFolder(
  name: string,
  environment: Readonly<Record<string, string | undefined>>,
  platform: NodeJS.Platform,
  home: string = homedir(),
): string {
  const { XDG_CACHE_HOME: xdg, LOCALAPPDATA: local } = environment;
  if (platform === 'win32') {
    const base = local !== undefined && win32.isAbsolute(local) ? local : win32.join(home, 'AppData', 'Local');
    return win32.join(base, 'nightledger', 'Cache', name);
  }
  // Relative paths are to be ignored by the specification.
  const base = xdg?.startsWith('/') === true ? xdg : join(home, platform === 'darwin' ? 'Library/Caches' : '.cache');
  return join(base, 'nightledger', name);
}
