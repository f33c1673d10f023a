import { askThrough, type Answer } from '../../../../src/gather/dialects/draft/ask.js';
import type { Kind } from '../../../../src/gather/dialects/draft/kinds/kind.js';
import type { UnusedLines } from '../../../../src/gather/dialects/draft/report.js';
import { draftDialect, readSample } from '../../../../src/gather/dialects/index.js';
import { beginOf, endOf, type EventName } from '../../../../src/model/index.js';
import { isSameEvent, scoreDialect } from './score-folder.js';

/** What a walk through what a draft leaves over is like for somebody who knows the log. */
export interface Walk {
  readonly log: string;
  /**
   * Events that the untouched draft misses and that stand on a line left to choose, and those that come with an event
   * offered there, or with one of the two likeliest.
   */
  readonly reported: number;
  readonly offered: number;
  readonly ofTwo: number;
  /** Questions asked, and keys pressed: down to the answer, and enter. */
  readonly questions: number;
  readonly keys: number;
  /** Kinds left over for another walk. */
  readonly beyond: number;
  /** Shares of the events before and after. */
  readonly before: number;
  readonly wrongBefore: number;
  readonly after: number;
  readonly wrongAfter: number;
}

/** An event counts for a kind if most of its lines report it, and no others do. */
const MOSTLY = 0.5;

/** Walks as somebody does who knows of each line what it tells: what is offered is taken, else the line is left. */
export async function walkThrough(folder: string, log: string): Promise<Walk> {
  const { yaml, report } = draftDialect(await readSample(folder, log));
  const score = await scoreDialect(folder, log, yaml);
  // An entry of several lines has the number of its first.
  const starts = [...report.rules, ...report.unused]
    .flatMap(({ kind }) => kind.lines.map((line) => ({ line, kind })))
    .sort((a, b) => a.line - b.line);
  const missedIn = eventsOn(score.missed, report.unused, starts);
  const logged = new Set(report.rules.flatMap(({ events }) => events.map(({ event }) => event)));
  let [reported, offered, ofTwo] = [0, 0, 0];
  for (const [unused, missed] of missedIn) {
    const made = unused.nearest.map((event) => comingWith(unused, event, logged));
    const isIn = (event: string, events: readonly EventName[][]): boolean =>
      events.flat().some((name) => isSameEvent(name, event));
    reported += missed.length;
    offered += missed.filter((event) => isIn(event, made)).length;
    ofTwo += missed.filter((event) => isIn(event, made.slice(0, 2))).length;
  }
  let [questions, keys, beyond] = [0, 0, 0];
  const after = await askThrough(
    report,
    null,
    (question): Promise<Answer> => {
      questions++;
      beyond = question.beyond;
      const unused = report.unused.find(
        (one) => one.firstLine === question.firstLine && one.examples === question.examples,
      );
      const reported = unused === undefined ? [] : (missedIn.get(unused) ?? []);
      // Of the events that are offered the one that comes to most of what the lines tell, and to nothing else.
      const worth = question.nearest.map((event) => {
        const made = unused === undefined ? [] : comingWith(unused, event, logged);
        const isReported = (name: EventName): boolean => MOSTLY * question.count <= timesIn(reported, name);
        return isReported(event) ? made.filter(isReported).length - made.filter((name) => !isReported(name)).length : 0;
      });
      const at = worth.indexOf(Math.max(...worth));
      const taken = (worth[at] ?? 0) > 0 ? question.nearest[at] : undefined;
      // `ignore` stands right behind what is offered.
      keys += 1 + (taken === undefined ? question.nearest.length : at);
      return Promise.resolve(taken !== undefined ? { event: taken } : 'ignore');
    },
    () => Promise.resolve(),
  );
  const walked = await scoreDialect(folder, log, after);
  return {
    ...{ log, reported, offered, ofTwo, questions, keys, beyond },
    before: score.right / score.truth,
    wrongBefore: score.wrong / score.truth,
    after: walked.right / walked.truth,
    wrongAfter: walked.wrong / walked.truth,
  };
}

interface OnLine {
  readonly event: string;
  readonly line?: number;
}

/** The events that the lines of each kind tell. */
function eventsOn(
  events: readonly OnLine[],
  unused: readonly UnusedLines[],
  starts: readonly { readonly line: number; readonly kind: Kind }[],
): Map<UnusedLines, string[]> {
  const found = new Map<UnusedLines, string[]>();
  for (const { event, line } of events) {
    const start = line === undefined ? undefined : starts.findLast((one) => one.line <= line);
    const own = unused.find(({ kind }) => kind === start?.kind);
    if (own !== undefined) found.set(own, [...(found.get(own) ?? []), event]);
  }
  return found;
}

const timesIn = (names: readonly string[], name: string): number =>
  names.filter((one) => isSameEvent(one, name)).length;

/** What the lines tell once an event of them is chosen: a row with both ends of a thing tells both. */
function comingWith({ choice }: UnusedLines, event: EventName, logged: ReadonlySet<EventName>): EventName[] {
  const { events, lasted, lasts } = choice.ruleFor(event, logged);
  const names = events.map((one) => one.event);
  const begun = lasted === undefined ? [] : names.flatMap((name) => beginOf(name) ?? []);
  return [...names, ...begun, ...(lasts === undefined ? [] : names.flatMap((name) => endOf(name) ?? []))];
}
