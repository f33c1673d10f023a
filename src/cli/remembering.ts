/** Where the sums of an archive's records are kept between runs. */
import type { Remembering } from '../archive.js';
import { cacheFolder } from '../files/cache-folder.js';
import type { Context } from './context.js';

/** Written in by the build: a digest of the sources. Absent where the sources run as they are, and may change. */
declare const __NIGHTLEDGER_BUILD__: string | undefined;

/** For runs of a built program; `undefined` if builds are indistinguishable. */
export function remembering({ env, nowMs }: Pick<Context, 'env' | 'nowMs'>): Remembering | undefined {
  if (typeof __NIGHTLEDGER_BUILD__ !== 'string') return undefined;
  return { folder: cacheFolder('nights', env, process.platform), build: __NIGHTLEDGER_BUILD__, nowMs };
}
