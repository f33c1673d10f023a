import type { JudgedFrame } from '../../model/index.js';

/** Which files to stack, to look at and to reject; and exposures of which there is no file. */
export interface WhichFrames {
  readonly stack: number;
  readonly look: number;
  readonly reject: number;
  /** Given up by the log, and without a file: nothing to look for. */
  readonly neverWritten: number;
  /** Logged to their end, and without a file: elsewhere, or lost from the disk. */
  readonly missing: number;
}

/** Sorts lights by what is to be done with their files. */
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
