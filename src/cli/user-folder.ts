import { join } from 'node:path';
import type { Surroundings } from './context.js';

/**
 * The folder of the user's rigs: under XDG_CONFIG_HOME, APPDATA, or HOME's `.config` (XDG Base Directory
 * Specification);
 * `undefined` where the surroundings name none.
 */
export function userRigFolder(env: Surroundings['env']): string | undefined {
  return userFolder(env, 'rigs');
}

/** The folder of the user's dialects, beside that of the rigs. */
export function userDialectFolder(env: Surroundings['env']): string | undefined {
  return userFolder(env, 'dialects');
}

function userFolder({ XDG_CONFIG_HOME, APPDATA, HOME }: Surroundings['env'], name: string): string | undefined {
  const base = XDG_CONFIG_HOME || APPDATA || (HOME ? join(HOME, '.config') : '');
  return base === '' ? undefined : join(base, 'nightledger', name);
}
