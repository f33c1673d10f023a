import type { Warning } from '../../model/index.js';
import type { CompiledDialect } from './compiled.js';

/** Code of the warning that a log's times are only one of two readings. */
export const UNDECIDED_DATE = 'undecided-date';

/** Reports that a log's dates can be read in two ways. */
export function openOrder(path: string, { name }: CompiledDialect): Warning {
  return {
    code: UNDECIDED_DATE,
    message:
      `Whether day or month comes first in the dates of ${path} is not decided: the dialect "${name}" says ` +
      '"order: by-night", and no night is known on which one of the two readings falls. Delete that line once the ' +
      'patterns are right; until then a report leaves the log out.',
    source: { file: path },
  };
}
