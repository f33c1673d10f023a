import type { JudgedFrame } from '../../model/index.js';

/** Which files to stack, to look at and to reject; and exposures of which there is no file. */
export interface WhichFrames {
  readonly stack: number;
  readonly look: number;
  readonly reject: number;
  /** Logged, whatever became of them, and not on disk. */
  readonly neverWritten: number;
}

/** Sorts lights by what is to be done with their files. */
export function whichFrames(lights: readonly Pick<JudgedFrame, 'file' | 'verdict'>[]): WhichFrames {
  const count = (verdict: JudgedFrame['verdict']): number =>
    lights.filter((light) => light.file !== undefined && light.verdict === verdict).length;
  return {
    stack: count('kept'),
    look: count('doubtful'),
    reject: count('lost'),
    neverWritten: lights.filter(({ file }) => file === undefined).length,
  };
}
