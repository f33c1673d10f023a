import { describe, expect, it } from 'vitest';
import { countedOf } from '../../scripts/tests-counted.mjs';

const file = (name: string, status: string, tests: Readonly<Record<string, string>>) => ({
  name,
  status,
  assertionResults: Object.entries(tests).map(([fullName, state]) => ({ fullName, status: state })),
});

/** As the runner reports a run in which two processes are killed, one in a test, one before any. */
const REPORT = {
  numPassedTests: 1,
  numFailedTests: 1,
  testResults: [
    file('usual', 'passed', { passes: 'passed', 'needs another system': 'skipped' }),
    file('one fails', 'failed', { fails: 'failed', 'needs a judge': 'skipped' }),
    file('killed in a test', 'passed', { 'had passed': 'pending', 'was running': 'pending', elsewhere: 'skipped' }),
    file('killed at once', 'passed', {}),
    file('not prepared', 'failed', { waits: 'skipped' }),
  ],
};

describe('what a run of the tests came to', () => {
  it('has files whose process died, or that could not be prepared, among what did not run, not among the skipped', () => {
    expect(countedOf(REPORT)).toEqual({
      passed: 1,
      failed: 1,
      skipped: ['needs another system', 'needs a judge', 'elsewhere'],
      broken: ['not prepared'],
      didNotRun: [
        { file: 'killed in a test', tests: ['had passed', 'was running'] },
        { file: 'killed at once', tests: [] },
        { file: 'not prepared', tests: ['waits'] },
      ],
    });
  });
});
