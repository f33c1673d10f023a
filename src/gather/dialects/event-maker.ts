import { itemAt } from '../../model/collections.js';
import {
  bareEvent,
  beginOf,
  endOf,
  type EventName,
  type FieldName,
  type LogEvent,
  type Source,
} from '../../model/index.js';
import { fieldExpectation, setField } from '../lines/event-fields.js';
import type { WarningTally } from '../lines/warning-tally.js';
import type { CompiledDialect, FieldRule, LineRule, Making } from './compiled.js';
import type { Formula, Lookup } from './formula.js';
import { OpenSpans } from './spans.js';
import type { LogClock } from './time/log-clock.js';

const LONGEST_SPAN_SECONDS = 24 * 3600;
const NO_ENDS: LineRule['closes'] = [];

/** Makes events from lines matched by a rule: fields, train, and the ends or begins that the log omits. */
export class EventMaker {
  readonly events: LogEvent[] = [];
  private readonly spans = new OpenSpans();
  private readonly tracksSpans: boolean;
  /** The expected ends of exposures, by train, until they are over. */
  private readonly planned = new Map<string | undefined, LogEvent>();

  /** Names in the log → ids in the rig file. */
  private readonly trains: ReadonlyMap<string, string>;
  /** Positions of the rules in the dialect. */
  private readonly places: ReadonlyMap<LineRule, Source>;
  /** The rule matched by the current line. */
  private rule: Source | undefined;

  /** @param train the train of events whose line names none */
  constructor(
    private readonly file: string,
    { file: dialect, lines, trains }: Pick<CompiledDialect, 'file' | 'lines' | 'trains'>,
    private readonly train: string | undefined,
    private readonly tally: WarningTally,
  ) {
    this.trains = trains;
    this.places = new Map(lines.map((rule) => [rule, { file: dialect, line: rule.line }]));
    this.tracksSpans = lines.some((rule) => rule.closes.length > 0);
  }

  /** @param clock returns the instant of an additional time in the line, UTC ms or NaN */
  make(rule: LineRule, lookup: Lookup, lineMs: number, line: number, clock: Pick<LogClock, 'readCaught'>): void {
    this.rule = this.places.get(rule);
    this.makeOne(rule, rule.closes, lookup, lineMs, line, clock);
    for (const one of rule.also) this.makeOne(one, NO_ENDS, lookup, lineMs, line, clock);
  }

  /** @param closes what ends first, where it is still open */
  private makeOne(
    rule: Making,
    closes: LineRule['closes'],
    lookup: Lookup,
    lineMs: number,
    line: number,
    clock: Pick<LogClock, 'readCaught'>,
  ): void {
    const train = this.trainOf(rule, lookup);
    const atMs = lineMs - (this.spanMs(rule.ago, 'ago', lookup, line) ?? 0);
    for (const end of closes) {
      if (this.spans.beginningFor(end, train) !== undefined) this.add(end, atMs, train, line);
    }
    if (this.planned.size > 0 && rule.events.includes('exposure-abort') && !rule.at.has('exposure-abort'))
      this.cancelEnd(atMs, train);
    const first = this.events.length;
    const lastedMs = this.spanMs(rule.lasted, 'lasted', lookup, line);
    if (lastedMs !== null) {
      for (const event of rule.events) {
        const begin = beginOf(event);
        if (begin !== undefined && isMeant(rule, event, beginOf)) this.add(begin, atMs - lastedMs, train, line);
      }
    }
    // Few rules state a future duration, and a map costs more than an event itself.
    const begunMs = rule.lasts === null ? null : new Map<EventName, number>();
    for (const event of rule.events) {
      if (event === 'exposure-abort' && isCutAfter(rule)) continue;
      const name = rule.at.size === 0 ? undefined : rule.at.get(event);
      const text = name === undefined ? undefined : lookup(name);
      const eventMs =
        name === undefined ? atMs : text === undefined ? NaN : clock.readCaught(String(text), lineMs, line);
      // A time that a line of this form may omit: no event.
      if (Number.isNaN(eventMs)) continue;
      this.add(event, eventMs, train, line);
      begunMs?.set(event, eventMs);
    }
    const lastsMs = this.spanMs(rule.lasts, 'lasts', lookup, line);
    if (lastsMs !== null) {
      for (const event of rule.events) {
        const end = event === 'exposure-begin' && isCutAfter(rule) ? 'exposure-abort' : endOf(event);
        const eventMs = begunMs?.get(event);
        // A span that ends at its own time does not have the duration of the line's main span;
        // a line may omit that time.
        if (end === undefined || eventMs === undefined || (end !== 'exposure-abort' && begunMs?.has(end) === true))
          continue;
        if (!isMeant(rule, event, endOf)) continue;
        // A line may state when its exposure was cut short, and how long it was to last.
        if (end === 'exposure-end' && begunMs?.has('exposure-abort') === true) continue;
        const made = this.add(end, eventMs + lastsMs, train, line);
        if (end === 'exposure-end') this.planned.set(train, made);
      }
    }
    this.fill(first, rule.fields, lookup, line);
  }

  private add(event: EventName, atMs: number, train: string | undefined, line: number): LogEvent {
    const made = bareEvent(event, atMs, train, { file: this.file, line }, this.rule);
    this.events.push(made);
    if (this.tracksSpans) this.spans.note(made);
    return made;
  }

  /** An aborted exposure has no planned end. */
  private cancelEnd(atMs: number, train: string | undefined): void {
    const planned = this.planned.get(train);
    this.planned.delete(train);
    const index = planned === undefined || planned.atMs <= atMs ? -1 : this.events.lastIndexOf(planned);
    if (index >= 0) this.events.splice(index, 1);
  }

  /** Assigns the fields of one line to its events, which begin at index `first`: each to those events that have it. */
  private fill(first: number, rules: readonly FieldRule[], lookup: Lookup, line: number): void {
    const { events } = this;
    for (const rule of rules) {
      const value = rule.value(lookup);
      if (value === undefined || (Number.isNaN(value) && someMissing(rule.names, lookup))) continue;
      let isUnfit = false;
      let isForeign = rule.isAsked && events.length > first;
      for (let i = first; i < events.length; i++) {
        const outcome = setField(itemAt(events, i), rule.name, value);
        isUnfit ||= outcome === 'unfit';
        isForeign &&= outcome === 'foreign';
      }
      if (isUnfit) this.tellUnfit(rule.name, value, line);
      else if (isForeign) this.tellForeign(rule.name, events.slice(first), line);
    }
  }

  private tellUnfit(name: FieldName, value: unknown, line: number): void {
    this.tally.add(
      'wrong-field',
      line,
      () =>
        `Line ${line}: "${name}" must be ${fieldExpectation(name)}, not ${JSON.stringify(value)}; ` +
        'the field was dropped, the event kept.',
      name,
    );
  }

  private tellForeign(name: FieldName, made: readonly LogEvent[], line: number): void {
    const names = made.map(({ event }) => event).join(', ');
    this.tally.add(
      'unknown-field',
      line,
      () => `Line ${line}: the event ${names} has no field "${name}"; it was not used.`,
      `${names} ${name}`,
    );
  }

  private trainOf(rule: Making, lookup: Lookup): string | undefined {
    const name = rule.train?.fill(lookup)?.trim();
    if (name === undefined || name === '') return this.train;
    return this.trains.get(name) ?? name;
  }

  /** Whole milliseconds of a duration, or `null` when there is none. */
  private spanMs(formula: Formula | null, key: string, lookup: Lookup, line: number): number | null {
    if (formula === null) return null;
    const seconds = formula.evaluate(lookup);
    if (seconds >= 0 && seconds <= LONGEST_SPAN_SECONDS) return Math.round(seconds * 1000);
    if (!someMissing(formula.names, lookup)) {
      this.tally.add(
        'wrong-duration',
        line,
        () =>
          `Line ${line}: "${key}" must give seconds between 0 and a day, not ${seconds}; ` +
          'nothing was derived from it. Check the formula in the dialect.',
      );
    }
    return null;
  }
}

function someMissing(names: ReadonlySet<string>, lookup: Lookup): boolean {
  for (const name of names) if (lookup(name) === undefined) return true;
  return false;
}

/**
 * Whether a duration in a line belongs to one of its events: to those without a time of their own, if there are any.
 * @param otherSide the event at the other end of that duration
 */
function isMeant(
  { events, at }: Making,
  event: EventName,
  otherSide: (event: EventName) => EventName | undefined,
): boolean {
  return !at.has(event) || events.every((one) => otherSide(one) === undefined || at.has(one));
}

/** Whether a line states when an exposure began and how long it lasted until it was aborted. */
function isCutAfter({ events, lasts, at }: Making): boolean {
  return (
    lasts !== null &&
    events.includes('exposure-abort') &&
    events.includes('exposure-begin') &&
    !at.has('exposure-abort')
  );
}
