import { isAbsolute, join } from 'node:path';
import type { Surroundings } from './context.js';

/**
 * The folder of the user's rigs: under XDG_CONFIG_HOME, APPDATA, or HOME's `.config` (XDG Base Directory
 * Specification);
 * `undefined` where the surroundings name none.
 */
export function userRigFolder(env: Surroundings['env']): string | undefined {
  return userFolder(env, 'rigs');
}

/** The folder of the user's dialects, next to that of the rigs. */
export function userDialectFolder(env: Surroundings['env']): string | undefined {
  return userFolder(env, 'dialects');
}

function userFolder({ XDG_CONFIG_HOME, APPDATA, HOME }: Surroundings['env'], name: string): string | undefined {
  // Relative paths must be ignored according to the specification: they would depend on the current folder.
  const base = [XDG_CONFIG_HOME, APPDATA, HOME && join(HOME, '.config')].find((path) => path && isAbsolute(path));
  return base ? join(base, 'nightledger', name) : undefined;
}
