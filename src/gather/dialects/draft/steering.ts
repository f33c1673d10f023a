import { plainWords } from './lexicon/plain-words.js';
import { SUBJECTS, type SubjectId } from './lexicon/subjects.js';

/** Written only by the computer that steers the mount. */
const STEERING: ReadonlySet<SubjectId> = new Set<SubjectId>(['dither', 'slew', 'centre', 'flip', 'guiding']);
const SUBJECTS_OF_THE_MOUNT = SUBJECTS.filter(({ id }) => STEERING.has(id));
/** A line's own words are at its beginning. */
const LOOKED_AT = 400;

/** Whether a line of a log, in any of the lexicon's languages, is about dithers, guiding or movements of the mount. */
export function tellsOfSteering(line: string): boolean {
  const words = plainWords(line.slice(0, LOOKED_AT));
  return SUBJECTS_OF_THE_MOUNT.some(({ strong }) => strong.test(words));
}
