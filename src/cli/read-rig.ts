/** The rig file that `--rig` names. */
import { basename, resolve } from 'node:path';
import { MAX_CONFIG_BYTES, readTextFile, UnsuitableFile } from '../files/read-text.js';
import { UsageError } from './exit-codes.js';

/** @throws UsageError when it cannot be read */
export function readRig(file: string): { name: string; text: string } {
  try {
    return { name: basename(file), text: readTextFile(resolve(file), { maxBytes: MAX_CONFIG_BYTES, name: file }) };
  } catch (error) {
    if (error instanceof UnsuitableFile) throw new UsageError(error.message);
    throw new UsageError(`--rig ${file} cannot be read; name a rig file`);
  }
}
