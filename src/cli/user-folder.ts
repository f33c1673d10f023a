import { join } from 'node:path';
import type { Surroundings } from './context.js';

/**
 * The folder of the user's rigs: under XDG_CONFIG_HOME, APPDATA, or HOME's `.config` (XDG Base Directory Specification);
 * `undefined` where the surroundings name none.
 */
export function userRigFolder({ XDG_CONFIG_HOME, APPDATA, HOME }: Surroundings['env']): string | undefined {
  const base = XDG_CONFIG_HOME || APPDATA || (HOME ? join(HOME, '.config') : '');
  return base === '' ? undefined : join(base, 'nightledger', 'rigs');
}
