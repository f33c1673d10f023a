// What a run of the tests came to, from the test runner's own report.

/**
 * Files and tests by what became of them. A process of tests that dies leaves the tests of its file as they were, and
 * the file without a failure.
 *
 * @param {import('./tests-counted.d.mts').Report} report
 * @returns {import('./tests-counted.d.mts').Counted}
 */
export function countedOf({ numPassedTests, numFailedTests, testResults }) {
  const skipped = [];
  const broken = [];
  const didNotRun = [];
  for (const { name, status, assertionResults } of testResults) {
    const having = (...states) => assertionResults.filter((test) => states.includes(test.status));
    // Of a file whose preparation fails, the runner says that its tests were skipped.
    const hasBroken = status === 'failed' && having('failed').length === 0;
    if (hasBroken) broken.push(name);
    else skipped.push(...having('skipped').map((test) => test.fullName));
    const left = having('pending', ...(hasBroken ? ['skipped'] : [])).map((test) => test.fullName);
    // The file of a process that dies before it knows any test has none.
    if (left.length > 0 || assertionResults.length === 0) didNotRun.push({ file: name, tests: left });
  }
  return { passed: numPassedTests, failed: numFailedTests, skipped, broken, didNotRun };
}
