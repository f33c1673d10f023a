import { beginOf, endOf, type EventName } from '../../model/index.js';
import { isFieldName } from '../lines/event-fields.js';
import { capturesOf, type CompileContext } from './compile-context.js';
import { captureField, compileField } from './compile-fields.js';
import type { FieldRule, GuidingRule, LineRule, Making, SampleListRule, When } from './compiled.js';
import type { Path } from './problems.js';
import type { LineFile, MakingFile } from './schema.js';
import { compileTemplate } from './template.js';

/** Compiles a rule of `lines`; `null` when it cannot be used. */
export function compileLine(context: CompileContext, rule: LineFile, path: Path): LineRule | null {
  const when = context.when(rule.when, [...path, 'when']);
  if (when === null) return null;
  return {
    when,
    ...compileMaking(context, rule, when, path),
    also: rule.also.map((one, i) => {
      const own = one.train === undefined && rule.train !== undefined ? { ...one, train: rule.train } : one;
      return compileMaking(context, own, when, [...path, 'also', i]);
    }),
    closes: rule.closes === undefined ? [] : typeof rule.closes === 'string' ? [rule.closes] : rule.closes,
    line: context.lineOf(path),
  };
}

function compileMaking(context: CompileContext, rule: MakingFile, when: When, path: Path): Making {
  const events = typeof rule.event === 'string' ? [rule.event] : rule.event;
  const known = context.namesFor(when);
  const ago = rule.ago === undefined ? null : context.formula(rule.ago, [...path, 'ago'], known);
  const lasted = rule.lasted === undefined ? null : context.formula(rule.lasted, [...path, 'lasted'], known);
  const lasts = rule.lasts === undefined ? null : context.formula(rule.lasts, [...path, 'lasts'], known);
  if (lasted !== null && !events.some((event) => beginOf(event) !== undefined)) {
    context.problems.add(
      [...path, 'lasted'],
      `"${events.join('", "')}" ends nothing; "lasted" goes with an event that ends something, ` +
        'such as "exposure-end"',
    );
  }
  if (lasts !== null && !events.some((event) => endOf(event) !== undefined)) {
    context.problems.add(
      [...path, 'lasts'],
      `"${events.join('", "')}" begins nothing; "lasts" goes with an event that begins something, ` +
        'such as "exposure-begin"',
    );
  }
  return {
    events,
    ago,
    lasted,
    lasts,
    at: ownTimes(context, rule, when, events, path),
    fields: fieldRules(context, rule, when, known, path),
    train: trainTemplate(context, rule.train, known, path),
  };
}

function ownTimes(
  context: CompileContext,
  rule: MakingFile,
  when: When,
  events: readonly EventName[],
  path: Path,
): Making['at'] {
  const at = new Map<EventName, string>();
  for (const [event, name] of Object.entries(rule.at) as [EventName, string][]) {
    if (!events.includes(event))
      context.problems.add(
        [...path, 'at', event],
        `"${event}" is none of the events of this rule; name it under "event"`,
      );
    context.checkNames(new Set([name]), [...path, 'at', event], context.namesFor(when));
    at.set(event, name);
  }
  return at;
}

function fieldRules(
  context: CompileContext,
  rule: MakingFile,
  when: When,
  known: readonly string[],
  path: Path,
): FieldRule[] {
  const fields: FieldRule[] = [];
  const given = new Set<string>();
  for (const [name, value] of Object.entries(rule.fields)) {
    if (!isFieldName(name) || value === undefined) continue;
    given.add(name);
    const field = context.problems.attempt([...path, 'fields', name], 'value', () =>
      compileField(name, value, context.comma),
    );
    if (field === null) continue;
    context.checkNames(field.names, [...path, 'fields', name], known);
    fields.push(field);
  }
  for (const name of capturesOf(when)) {
    if (isFieldName(name) && !given.has(name)) fields.push(captureField(name, context.comma));
  }
  return fields;
}

function trainTemplate(
  context: CompileContext,
  source: string | undefined,
  known: readonly string[],
  path: Path,
): Making['train'] {
  const text = source ?? (known.includes('train') ? '{train}' : undefined);
  if (text === undefined) return null;
  const template = context.problems.attempt([...path, 'train'], 'train', () => compileTemplate(text));
  if (template !== null) context.checkNames(template.names, [...path, 'train'], known);
  return template;
}

/** Compiles the rule for guiding samples; `null` where there is none. */
export function compileGuiding(context: CompileContext): GuidingRule | null {
  const { guiding } = context.file;
  if (guiding === undefined) return null;
  if (guiding.when === undefined && context.file.csv === undefined && context.file.records === undefined) {
    return context.problems.add(
      ['guiding'],
      '"when" is missing: a pattern that recognises the lines with samples and captures their values',
    );
  }
  const when = guiding.when === undefined ? null : context.when(guiding.when, ['guiding', 'when']);
  const known = when === null ? [...context.columns, ...context.shared] : context.namesFor(when);
  const ra = context.formula(guiding.ra, ['guiding', 'ra'], known);
  const dec = context.formula(guiding.dec, ['guiding', 'dec'], known);
  const snr = guiding.snr === undefined ? null : context.formula(guiding.snr, ['guiding', 'snr'], known);
  if (guiding.each !== false && when?.kind !== 'text')
    context.problems.add(['guiding', 'each'], '"each" needs a pattern on the line\'s text, which matches one sample');
  if (guiding.each === 'lists' && !(known.includes('ra') && known.includes('dec')))
    context.problems.add(
      ['guiding', 'when'],
      'it must capture the lists of errors in the groups (?<ra>…) and ' + '(?<dec>…)',
    );
  if (guiding.every !== undefined && guiding.each === false && guiding.list === undefined)
    context.problems.add(['guiding', 'every'], '"every" goes with "each" or "list": a line of one sample has one time');
  const list = sampleListRule(context, guiding.list);
  if (ra === null || dec === null) return null;
  const { each, every = null, timed } = guiding;
  const columns = [...ra.names, ...dec.names].filter((name) => context.columns.includes(name));
  return { when, columns, each, list, every, timed, ra, dec, snr };
}

function sampleListRule(
  context: CompileContext,
  list: NonNullable<CompileContext['file']['guiding']>['list'],
): SampleListRule | null {
  if (list === undefined) return null;
  const { guiding, records } = context.file;
  if (records?.as !== 'json')
    context.problems.add(
      ['guiding', 'list'],
      'lists of samples are held by records; they need "records: { as: json }"',
    );
  if (list.time !== undefined && list.after !== undefined)
    context.problems.add(['guiding', 'list'], 'a sample has either a time of its own ("time") or seconds "after" one');
  if (list.time === undefined && list.after === undefined && guiding?.every === undefined)
    context.problems.add(['guiding', 'list'], 'say when the samples were taken: with "time", "after" or "every"');
  if (guiding?.each !== false)
    context.problems.add(['guiding', 'each'], '"each" is for samples in a text; with "list" every element is one');
  return {
    path: list.in,
    time: list.time ?? null,
    after: list.after === undefined ? null : context.formula(list.after, ['guiding', 'list', 'after'], []),
    since: list.since ?? null,
  };
}
