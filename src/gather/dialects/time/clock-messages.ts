import type { WarningTally } from '../../lines/warning-tally.js';

/** A line states what relative times count from, but not in the form that the dialect gives. */
export function noBase(tally: WarningTally, line: number): void {
  tally.add(
    'unreadable-time',
    line,
    () => `Line ${line} begins a section, but its time cannot be read; check "base" of the section against it.`,
    'section',
  );
}

/** The same for the name of the file. */
export function noBaseInName(tally: WarningTally, name: string): void {
  tally.add(
    'unreadable-time',
    0,
    () =>
      `The name "${name}" does not hold the time that the log's times count from, in the form of "sections.file"; ` +
      'correct the pattern in the dialect.',
    'section',
  );
}

/** A line states the date, but not in the form that the dialect gives. */
export function noDate(tally: WarningTally, line: number): void {
  tally.add(
    'unreadable-date',
    line,
    () => `Line ${line} states the date, but not in the form of "date.pattern"; correct the pattern in the dialect.`,
  );
}
