import type { DialectFile } from './schema.js';
import { swappedOrder } from './time/swapped-order.js';

/** The dialect with day and month swapped in all of its dates; `null` if none of them can be swapped. */
export function inOtherOrder(file: DialectFile): DialectFile | null {
  let turned = 0;
  const turn = (pattern: string): string => {
    const other = swappedOrder(pattern);
    if (other !== null) turned++;
    return other ?? pattern;
  };
  const turnAll = (patterns: string | string[]): string | string[] =>
    typeof patterns === 'string' ? turn(patterns) : patterns.map(turn);
  const { time } = file;
  const { date } = time;
  const other: DialectFile = {
    ...file,
    time: {
      ...time,
      pattern: turnAll(time.pattern),
      ...(time.caught === undefined ? {} : { caught: turnAll(time.caught) }),
      date:
        typeof date === 'string'
          ? date
          : 'file' in date
            ? { ...date, file: turn(date.file) }
            : { ...date, pattern: turn(date.pattern) },
    },
    sections: file.sections.map((section) =>
      'file' in section
        ? { file: turn(section.file) }
        : 'from' in section || section.base === undefined
          ? section
          : { ...section, base: turn(section.base) },
    ),
  };
  return turned === 0 ? null : other;
}
