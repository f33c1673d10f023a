import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import type { DraftReport, DraftRule, UnusedLines } from '../report.js';
import { unusedOf } from '../choice.js';
import type { LogSample } from '../sample.js';
import { AUDITS } from './audits.js';
import { readByDraft, type Doubt } from './drafted-night.js';

/** Withdrawing a rule may expose further contradictions, which are then handled in turn. */
const ROUNDS = 6;
const HALF = 0.5;

/** The draft without the events that its own timeline contradicts: their lines are left for the user to classify. */
export function withoutContradicted(sample: LogSample, report: DraftReport): DraftReport {
  let rest = report;
  for (let i = 0; i < ROUNDS; i++) {
    const night = readByDraft(sample, rest);
    // The first audit that finds something is acted on before the next one runs: the wrong rule may have misled it.
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
    const other = replacing(rule, first, report);
    if (other !== null) return [other];
    taken.push(offered(rule, first.why));
    return [];
  });
  return { ...report, rules, unused: [...taken, ...report.unused] };
}

/** The rule of the likeliest other event, if it is one that the doubt itself suggests. */
function replacing(own: DraftRule, { instead = [] }: Doubt, { rules }: DraftReport): DraftRule | null {
  const { choice, events, count } = own;
  const doubted = events.map(({ event }) => event);
  const [likeliest] = choice.likeliest(doubted);
  if (likeliest === undefined || !instead.includes(likeliest)) return null;
  // A few lines of another kind do not report the other ends of all of these.
  const usual = rules.filter((rule) => rule !== own && rule.count >= HALF * count);
  const logged = new Set(usual.flatMap((rule) => rule.events.map(({ event }) => event)));
  return { ...choice.ruleFor(likeliest, logged), choice, margin: 0 };
}

/** Whether the doubted event is an event of a rule, or is derived from one by the duration that its lines state. */
function concerns(doubt: Doubt, event: EventName, { events }: DraftRule): boolean {
  if (events.some((one) => one.event === doubt.event)) return doubt.event === event;
  return beginOf(doubt.event) === event || endOf(doubt.event) === event;
}

function offered({ kind, events, choice }: DraftRule, doubt: string): UnusedLines {
  const doubted = events.map(({ event }) => event);
  return { ...unusedOf(kind, choice, doubted), doubt };
}
