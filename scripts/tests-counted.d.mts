/** What the test runner reports as JSON, as far as it is read. */
export interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[];
  }[];
}

export interface Counted {
  readonly passed: number;
  readonly failed: number;
  /** Tests that this machine cannot do. */
  readonly skipped: readonly string[];
  /** Files that failed as a whole. */
  readonly broken: readonly string[];
  /** Files whose process died, or that could not be prepared, and their tests that did not come to an end. */
  readonly didNotRun: readonly { readonly file: string; readonly tests: readonly string[] }[];
}

export function countedOf(report: Report): Counted;
