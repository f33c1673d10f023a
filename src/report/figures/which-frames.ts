import type { JudgedFrame } from '../../model/index.js';

/** Which files to stack, to review and to reject; and exposures without a file. */
export interface WhichFrames {
  readonly stack: number;
  readonly look: number;
  readonly reject: number;
  /** Aborted according to the log, and without a file: nothing to look for. */
  readonly neverWritten: number;
  /** Completed according to the log, and without a file: elsewhere, or lost from the disk. */
  readonly missing: number;
}

/** Sorts lights by what to do with their files. */
export function whichFrames(lights: readonly Pick<JudgedFrame, 'file' | 'verdict' | 'aborted'>[]): WhichFrames {
  const count = (verdict: JudgedFrame['verdict']): number =>
    lights.filter((light) => light.file !== undefined && light.verdict === verdict).length;
  const absent = lights.filter(({ file }) => file === undefined);
  const neverWritten = absent.filter(({ aborted }) => aborted === true).length;
  return {
    stack: count('kept'),
    look: count('doubtful'),
    reject: count('lost'),
    neverWritten,
    missing: absent.length - neverWritten,
  };
}
