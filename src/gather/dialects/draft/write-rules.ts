import { EVENT_NAMES, groupBy, hasField, type EventName } from '../../../model/index.js';
import { isFieldName } from '../../lines/event-fields.js';
import type { WhenText } from './kinds/kind.js';
import type { DraftEvent, DraftReport, DraftRule, GuidingDraft, Outcome, UnusedLines } from './report.js';
import { comment, quoted, scalar } from './yaml-text.js';

/** Rules with a smaller lead over the next best event are flagged for review. */
const DOUBTFUL_MARGIN = 0.6;
const NAMES_PER_LINE = 6;
const TWO_LIKELIEST = 2;
/** The comment that begins the list of unclassified lines. */
export const UNUSED_TITLE =
  '# The lines below are not used. Move those that matter under "lines", with one of these events:';

/** The rule for guiding samples, with the constant for their scale. */
export function writeGuiding({ guiding }: DraftReport): string[] {
  if (guiding === undefined) return [];
  const { scale, when } = guiding;
  const constants =
    scale === 'none'
      ? []
      : scale === 'missing'
        ? [
            '',
            '# The errors are pixels, and no line states the scale: put the arcseconds per pixel of the guide camera here.',
            'constants:',
            '  scale: 1',
          ]
        : ['', 'constants:', `  scale: { when: ${quoted(scale.when)} }   # arcseconds per pixel`];
  return [
    ...constants,
    '',
    '# Two signed columns about zero: the guiding errors, taken to be arcseconds unless a scale is given.',
    'guiding:',
    ...(when === null ? [] : whenLines(when, '  ', '  ')),
    ...(guiding.list === undefined ? [] : [`  list: { ${listText(guiding.list)} }`]),
    `  ra: ${quoted(guiding.ra)}`,
    `  dec: ${quoted(guiding.dec)}`,
    ...(guiding.each === undefined ? [] : [`  each: ${guiding.each}`]),
    ...(guiding.rhythm === undefined ? [] : rhythmLines(guiding.rhythm)),
    ...(guiding.snr === undefined ? [] : [`  snr: ${quoted(guiding.snr)}`]),
  ];
}

function listText(list: NonNullable<GuidingDraft['list']>): string {
  return Object.entries(list)
    .map(([key, value]) => `${key}: ${quoted(value)}`)
    .join(', ');
}

function rhythmLines({ every, timed, isStated }: NonNullable<GuidingDraft['rhythm']>): string[] {
  return [
    `  every: ${every}`,
    `  timed: ${timed}${isStated ? '' : "   # LOOK AT THIS: nothing says whether a line's time is that of its first or its last sample"}`,
  ];
}

/** The proposed rules. */
export function writeRules({ rules, guiding }: DraftReport): string[] {
  if (rules.length === 0) {
    if (guiding !== undefined) return [];
    return [
      '',
      '# No familiar wording was recognised. Turn the lines below into rules.',
      'lines:',
      "  - when: 'replace this by what a line says'",
      '    event: note',
    ];
  }
  return ['', 'lines:', ...rules.flatMap(ruleLines)];
}

function ruleLines(rule: DraftRule): string[] {
  return [
    `  # ${lineCount(rule.count)}, first ${rule.firstLine}: ${comment(rule.examples[0] ?? '')}`,
    ...(rule.margin < DOUBTFUL_MARGIN ? ['  # Not quite sure: look at this one.'] : []),
    ...keysOf(rule, '  '),
  ];
}

/** A rule's keys and their values. */
function keysOf(rule: Omit<DraftRule, 'choice'>, margin: string): string[] {
  const ofTrains = [...groupBy(rule.events, ({ train }) => train ?? '')];
  // What is of no train in particular is what the rule is about.
  const apart = [...ofTrains.filter(([train]) => train === ''), ...ofTrains.filter(([train]) => train !== '')];
  const [[own = '', events = []] = [], ...also] = apart;
  const train = own === '' ? rule.train : own;
  return [
    ...whenLines(rule.when, `${margin}- `, `${margin}  `),
    ...[
      ...eventKeys(events, rule),
      ...(train === undefined ? [] : [`train: ${quoted(train)}`]),
      ...(rule.ago === undefined ? [] : [`ago: ${scalar(rule.ago)}`]),
      ...(rule.lasted === undefined ? [] : [`lasted: ${scalar(rule.lasted)}`]),
      ...(rule.lasts === undefined ? [] : [`lasts: ${scalar(rule.lasts)}`]),
      ...(also.length === 0 ? [] : ['also:']),
      ...also.map(([name, made]) => `  - { ${[...eventKeys(made, rule), `train: ${quoted(name)}`].join(', ')} }`),
    ].map((line) => `${margin}  ${line}`),
  ];
}

/** The keys of events that are of one train: what they are, their times, and those of the rule's fields they have. */
function eventKeys(
  events: readonly DraftEvent[],
  rule: Pick<DraftRule, 'events' | 'fields' | 'outcome' | 'slots'>,
): string[] {
  const names = events.map(({ event }) => event);
  const at = events.flatMap(({ event, at: place }) => (place === undefined ? [] : [`${event}: ${quoted(place)}`]));
  const isWhole = events.length === rule.events.length;
  const has = (name: string): boolean => isWhole || (isFieldName(name) && names.some((event) => hasField(event, name)));
  const fields = [
    ...Object.entries(rule.fields).flatMap(([name, value]) => (has(name) ? [`${name}: ${quoted(value)}`] : [])),
    ...(rule.slots === undefined || !has(rule.slots.field) ? [] : [`${rule.slots.field}: ${slotsText(rule.slots)}`]),
    ...(rule.outcome === undefined || !has('ok') ? [] : [`ok: ${outcomeText(rule.outcome)}`]),
  ];
  return [
    `event: ${names.length === 1 ? (names[0] ?? '') : `[${names.join(', ')}]`}`,
    ...(at.length > 0 ? [`at: { ${at.join(', ')} }`] : []),
    ...(fields.length > 0 ? [`fields: { ${fields.join(', ')} }`] : []),
  ];
}

function slotsText({ place, names }: NonNullable<DraftRule['slots']>): string {
  const map = Object.entries(names).map(([slot, name]) => `${slot}: ${quoted(name)}`);
  return `{ from: ${quoted(`{${place}}`)}, map: { ${map.join(', ')} } }`;
}

function outcomeText(outcome: Outcome): string {
  if (outcome === 'failed') return 'false';
  const map = outcome.failed.map((text) => `${quoted(text)}: false`).join(', ');
  return `{ from: ${quoted(`{${outcome.place}}`)}, map: { ${map} }, else: true }`;
}

/** Every unclassified kind, as a rule to be chosen. */
export function writeUnused({ unused, rules }: DraftReport): string[] {
  if (unused.length === 0) return [];
  const names: string[] = [];
  for (let i = 0; i < EVENT_NAMES.length; i += NAMES_PER_LINE)
    names.push(`#   ${EVENT_NAMES.slice(i, i + NAMES_PER_LINE).join(', ')}`);
  const logged = new Set(rules.flatMap(({ events }) => events.map(({ event }) => event)));
  return [
    '',
    UNUSED_TITLE,
    ...names,
    '# and put those that do not under "ignore", so that unknown lines stand out.',
    ...unused.flatMap((one) => unusedLines(one, logged)),
  ];
}

/** The rule for the likeliest event, with the slots of its facts. */
function unusedLines(
  { count, firstLine, template, when, nearest, doubt, choice }: UnusedLines,
  logged: ReadonlySet<EventName>,
): string[] {
  const [first] = nearest;
  const others = nearest.slice(TWO_LIKELIEST);
  const likely =
    first === undefined
      ? 'no event comes near'
      : `likeliest: ${nearest.slice(0, TWO_LIKELIEST).join(', or ')}${others.length === 0 ? '' : `; else ${others.join(', ')}`}`;
  const against = doubt === undefined ? [] : [`#  # TAKEN BACK, the night contradicts it: ${doubt}.`];
  return [
    '#',
    `#  # ${lineCount(count)}, first ${firstLine}: ${comment(template)} (${likely})`,
    ...against,
    ...(first === undefined
      ? [...whenLines(when, '#  - ', '#    '), '#    event: note']
      : keysOf(choice.ruleFor(first, logged), '#  ')),
  ];
}

function lineCount(count: number): string {
  return `${count} line${count === 1 ? '' : 's'}`;
}

function whenLines(when: WhenText, first: string, rest: string): string[] {
  if (typeof when === 'string') return [`${first}when: ${quoted(when)}`];
  return [
    `${first}when:`,
    ...Object.entries(when).map(([path, pattern]) => `${rest}  ${quoted(path)}: ${quoted(pattern)}`),
  ];
}
