import type { CompileContext } from './compile-context.js';
import type { ConstantRule, CsvRules, JobRules, RecordRules, SectionRule, StateRules } from './compiled.js';
import type { Pattern } from './pattern/pattern.js';
import type { StampPattern } from './time/stamp.js';

/** How messages refer to jobs by number; `null` if they do not. */
export function compileJobs(context: CompileContext): JobRules | null {
  const { jobs } = context.file;
  if (jobs === undefined) return null;
  if (context.file.csv !== undefined || context.file.records !== undefined)
    return context.problems.add(['jobs'], 'messages of a text have jobs; records share a number by "records.join"');
  const begin = context.pattern(jobs.begin, ['jobs', 'begin']);
  const later = context.pattern(jobs.later, ['jobs', 'later']);
  if (begin !== null && !(begin.groups.has('job') && begin.groups.has('about')))
    context.problems.add(
      ['jobs', 'begin'],
      'it must capture the number in a group (?<job>…), and what the job is about in (?<about>…)',
    );
  if (later !== null && !later.groups.has('job'))
    context.problems.add(['jobs', 'later'], 'it must capture the number in a group (?<job>…)');
  return begin === null || later === null ? null : { begin, later };
}

/** The record layout of a log; `null` if it has none. */
export function compileRecords(context: CompileContext, csv: readonly CsvRules[] | null): RecordRules | null {
  const { records } = context.file;
  if (records === undefined) return null;
  if (csv !== null)
    return context.problems.add(['records'], 'a log is either "csv" or "records"; remove one of the two');
  const { time = [] } = records;
  const { as: form, join = null } = records;
  if (typeof time === 'object' && 'first' in time) return { form, time: time.first, timeIsFirst: true, join };
  return { form, time: typeof time === 'string' ? [time] : time, timeIsFirst: false, join };
}

/** Columns or fields of which only changes from row to row matter. */
export function compileStates(context: CompileContext): StateRules | null {
  const { states, csv, records } = context.file;
  if (states === undefined || 'when' in states) return null;
  if (csv === undefined && records === undefined)
    context.problems.add(['states'], 'rows or records have states; describe them by "csv" or "records"');
  const isKeyed = 'of' in states;
  if (csv !== undefined) context.checkColumns(isKeyed ? [states.of, states.state] : states, ['states']);
  return isKeyed ? states : { columns: states };
}

/** The text messages that name a device and its new state; `null` if there are none. */
export function compileStateLines(context: CompileContext): Pattern | null {
  const { states, csv, records, jobs } = context.file;
  if (states === undefined || !('when' in states)) return null;
  if (csv !== undefined || records !== undefined || jobs !== undefined)
    return context.problems.add(['states'], 'messages of a text have "when"; rows and records name fields instead');
  const when = context.pattern(states.when, ['states', 'when']);
  if (when !== null && !(when.groups.has('device') && when.groups.has('state')))
    context.problems.add(
      ['states', 'when'],
      'it must capture the device in a group (?<device>…), and its new state in (?<state>…)',
    );
  return when;
}

/** Values that are constant or picked up from the log. */
export function compileConstants(context: CompileContext): ConstantRule[] {
  return Object.entries(context.file.constants).map(([name, rule]) => {
    if (typeof rule !== 'object') return { name, initial: rule, when: null };
    const when = context.pattern(rule.when, ['constants', name, 'when']);
    if (when !== null && !when.groups.has('value'))
      context.problems.add(['constants', name, 'when'], 'it must capture the value in a group (?<value>…)');
    return { name, initial: rule.default, when };
  });
}

/** What relative times count from. */
export function compileSections(context: CompileContext): SectionRule[] {
  return context.file.sections.flatMap((section, i) => {
    if ('file' in section || 'from' in section) return [];
    const begin = context.pattern(section.begin, ['sections', i, 'begin']);
    const base =
      section.base === undefined ? null : context.problems.stampPattern(section.base, ['sections', i, 'base']);
    const end = section.end === undefined ? null : context.pattern(section.end, ['sections', i, 'end']);
    if (base !== null && begin !== null && !begin.groups.has('time')) {
      context.problems.add(
        ['sections', i, 'begin'],
        'it must capture the base time in a group (?<time>…), which "base" then reads',
      );
    }
    if (begin?.groups.has('elapsed') === true && !begin.groups.has('time')) {
      context.problems.add(
        ['sections', i, 'begin'],
        'a count in (?<elapsed>…) belongs to a time: capture that in a group (?<time>…)',
      );
    }
    if (section.above && base === null && begin !== null)
      context.problems.add(
        ['sections', i, 'above'],
        'the lines above have no time until this one: it must state it, in a group (?<time>…) that "base" reads',
      );
    return begin === null ? [] : [{ begin, base, end, sync: section.sync, isAbove: section.above }];
  });
}

/** The initial reference of relative times, where the file's name states it. */
export function compileBaseInName(context: CompileContext): StampPattern | null {
  const i = context.file.sections.findIndex((section) => 'file' in section);
  const section = context.file.sections[i];
  if (section === undefined || !('file' in section)) return null;
  const pattern = context.problems.stampPattern(section.file, ['sections', i, 'file']);
  if (pattern !== null && pattern.kind !== 'date-time' && pattern.kind !== 'epoch' && pattern.kind !== 'date')
    return context.problems.add(
      ['sections', i, 'file'],
      'it must hold the date, and the time of day unless that is midnight, that the times count from',
    );
  return pattern;
}

/** The fixed instant that relative times count from, UTC ms; NaN if there is none. */
export function compileFixedBase(context: CompileContext): number {
  const from = context.file.sections.flatMap((section) => ('from' in section ? [section.from] : []));
  return Date.parse(from[0] ?? '');
}

/** The train of the whole log. */
export function compileTrain(context: CompileContext): string | Pattern | null {
  const { train } = context.file;
  if (train === undefined || typeof train === 'string') return train ?? null;
  const pattern = context.pattern(train.file, ['train', 'file']);
  if (pattern !== null && !pattern.groups.has('train'))
    return context.problems.add(['train', 'file'], 'it must capture the train in a group (?<train>…)');
  return pattern;
}
