import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { DraftReport, DraftRule, UnusedLines } from '../report.js';
import { unusedOf } from '../choice.js';
import type { LogSample } from '../sample.js';
import { AUDITS } from './audits.js';
import { readByDraft, type Doubt } from './drafted-night.js';

/** What is taken back may bring other lines to light, and these contradict in turn. */
const ROUNDS = 6;

/** The draft without the events that the night it tells contradicts: their lines are left to choose. */
export function withoutContradicted(sample: LogSample, report: DraftReport): DraftReport {
  let rest = report;
  for (let i = 0; i < ROUNDS; i++) {
    const night = readByDraft(sample, rest);
    // The first audit that finds something is followed before the next: what it takes back may have misled that.
    const doubts = night === null ? [] : (AUDITS.map((audit) => audit(night)).find(({ length }) => length > 0) ?? []);
    if (doubts.length === 0) break;
    rest = without(rest, doubts);
  }
  return rest;
}

function without(report: DraftReport, doubts: readonly Doubt[]): DraftReport {
  const taken: UnusedLines[] = [];
  const rules = report.rules.flatMap((rule, i): DraftRule[] => {
    const own = doubts.filter((doubt) => doubt.rule === i);
    const [first] = own;
    if (first === undefined) return [rule];
    const events = rule.events.filter(({ event }) => !own.some((doubt) => concerns(doubt, event, rule)));
    if (events.length === rule.events.length) return [rule];
    if (events.length > 0) return [{ ...rule, events, margin: 0 }];
    taken.push(offered(rule, first.why));
    return [];
  });
  return { ...report, rules, unused: [...taken, ...report.unused] };
}

/** Whether what is doubted is an event of a rule, or is worked out of that event by how long its lines say it took. */
function concerns(doubt: Doubt, event: EventName, { events }: DraftRule): boolean {
  if (events.some((one) => one.event === doubt.event)) return doubt.event === event;
  return beginOf(doubt.event) === event || endOf(doubt.event) === event;
}

function offered({ kind, events, choice }: DraftRule, doubt: string): UnusedLines {
  const doubted = events.map(({ event }) => event);
  return { ...unusedOf(kind, choice, doubted), doubt };
}
