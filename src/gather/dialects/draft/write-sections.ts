import type { DraftReport } from './report.js';
import { quoted } from './yaml-text.js';

/** What relative times count from. */
export function sections(report: DraftReport): string[] {
  const { stamp, sections: found } = report;
  if (found.length > 0) {
    return [
      '',
      '# Relative times count from the time that such a line states.',
      'sections:',
      ...found.flatMap((section) =>
        'file' in section
          ? [`  - file: ${quoted(section.file)}   # in the file's name`]
          : 'from' in section
            ? [
                `  - from: ${quoted(section.from)}   # ${report.clockBy === 'frames' ? "LOOK AT THIS: by the session's frames, for the log of this night alone" : 'a fixed instant that the log states'}`,
              ]
            : [
                `  - begin: ${quoted(section.begin)}`,
                `    base: ${quoted(section.base)}`,
                ...(section.sync ? ['    sync: true   # its own count is that of the time it states'] : []),
                ...(section.above ? ['    above: true  # also of the lines above it'] : []),
              ],
      ),
    ];
  }
  if (stamp === null || !stamp.pattern.includes('{elapsed')) return [];
  return [
    '',
    '# The times are relative, and no line was found that says to what. Capture its time in a group (?<time>…).',
    'sections:',
    "  - begin: 'replace this by what the line with the base time says'",
  ];
}
