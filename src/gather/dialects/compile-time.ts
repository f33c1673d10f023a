import type { Problems } from './problems.js';
import type { DialectFile } from './schema.js';
import type { DateRule, TimeRules } from './time/time-rules.js';
import { zoneByName } from './time/zone.js';

/** Compiles the part of a dialect that describes time. */
export function compileTime(file: DialectFile, problems: Problems): TimeRules | null {
  const { time } = file;
  const sources = typeof time.pattern === 'string' ? [time.pattern] : time.pattern;
  const patterns = sources.flatMap((source, i) => {
    const path = typeof time.pattern === 'string' ? ['time', 'pattern'] : ['time', 'pattern', i];
    const pattern = problems.stampPattern(source, path);
    if (pattern?.kind === 'date' || pattern?.kind === 'month-day' || pattern?.kind === 'year')
      problems.add(path, 'the pattern of a line needs a time of day; a date alone belongs under "date"');
    if (pattern?.isHourAlone === true)
      problems.add(path, 'the pattern of a line needs {minute}; headings with the hour alone belong under "sections"');
    return pattern ?? [];
  });
  const zone = time.zone === 'site' ? 'site' : zoneByName(time.zone);
  if (zone === null) {
    problems.add(
      ['time', 'zone'],
      `"${time.zone}" is not a time zone; use "site", "utc", an offset such as "+02:00", or a name such ` +
        'as "Europe/Madrid"',
    );
  }
  const caughtSources = time.caught === undefined ? [] : typeof time.caught === 'string' ? [time.caught] : time.caught;
  const caught = caughtSources.flatMap((source) => problems.stampPattern(source, ['time', 'caught']) ?? []);
  const date = dateRule(file, problems);
  const dateless = patterns.find((pattern) => pattern.kind === 'time' || pattern.kind === 'month-day-time');
  if (dateless !== undefined && date?.from === 'line') {
    problems.add(
      ['time', 'date'],
      `"${dateless.source}" has no ${dateless.kind === 'time' ? 'date' : 'year'}; say where it comes ` +
        'from: "session", or { file: … } or { header: … }',
    );
  }
  if (patterns.some((pattern) => pattern.kind === 'elapsed') && file.sections.length === 0) {
    problems.add(['sections'], 'relative seconds need "sections", which say where they count from');
  }
  if (time.since === 'previous') {
    if (patterns.some((pattern) => pattern.kind !== 'elapsed'))
      problems.add(
        ['time', 'since'],
        'times since the line before are relative seconds: every pattern needs {elapsed} or another form of it',
      );
    if (file.entries === 'stamps')
      problems.add(['time', 'since'], 'with "entries: stamps" the line before is not known; leave one of the two out');
  }
  return zone === null || date === null
    ? null
    : {
        patterns,
        at: file.entries === 'stamps' ? 'anywhere' : time.at,
        zone,
        date,
        evening: time.evening,
        since: time.since,
        aheadMs: Math.round(time.ahead * 1000),
        wrapsMs: Math.round((time.wraps ?? 0) * 1000),
        carry: time.carry,
        caught,
      };
}

function dateRule(file: DialectFile, problems: Problems): DateRule | null {
  const { date } = file.time;
  if (date === 'line' || date === 'session') return { from: date };
  const source = 'file' in date ? date.file : date.pattern;
  const path = ['time', 'date', 'file' in date ? 'file' : 'pattern'];
  const pattern = problems.stampPattern(source, path);
  if (pattern === null) return null;
  const hasYear = pattern.kind === 'date' || pattern.kind === 'date-time';
  // Stamps with month and day lack only the year.
  const lacksYearAlone = [file.time.pattern].flat().every((one) => /\{month|\{day-of-year\}/.test(one));
  const isYear = pattern.kind === 'year' && lacksYearAlone;
  const isYearless = pattern.kind === 'month-day' && 'header' in date && date.year !== undefined;
  if (!hasYear && !isYear && !isYearless)
    return problems.add(
      path,
      'it must hold the date: {year}, {month} and {day}; ' +
        'if the year is elsewhere, say so with "year: file" or "year: 2026"',
    );
  if ('file' in date) return { from: 'file', pattern, evening: date.evening };
  const when = problems.pattern(date.header, ['time', 'date', 'header'], file.ignoreCase);
  if (when === null) return null;
  if (!when.groups.has('date'))
    return problems.add(['time', 'date', 'header'], 'it must capture the date in a group (?<date>…)');
  return { from: 'header', when, pattern, evening: date.evening, year: date.year };
}
