import { askThrough, type Answer } from '../../../../src/gather/dialects/draft/ask.js';
import { draftDialect, readSample } from '../../../../src/gather/dialects/index.js';
import { isSameEvent, scoreDialect } from './score-folder.js';

/** What a walk through what a draft leaves over is like for somebody who knows the log. */
export interface Walk {
  /** Events that the untouched draft misses and that stand on a line left to choose, and those that are offered there. */
  readonly told: number;
  readonly offered: number;
  /** Questions asked, and keys pressed: down to the answer, and enter. */
  readonly questions: number;
  readonly keys: number;
  /** Kinds left over for another walk. */
  readonly beyond: number;
  /** Shares of the events before and after. */
  readonly before: number;
  readonly after: number;
  readonly wrongAfter: number;
}

/** Walks as somebody does who knows of each line what it tells: what is offered is taken, else the line is left. */
export async function walkThrough(folder: string, log: string): Promise<Walk> {
  const { yaml, report } = draftDialect(await readSample(folder, log));
  const score = await scoreDialect(folder, log, yaml);
  // An entry of several lines has the number of its first.
  const kinds = [...report.rules, ...report.unused];
  const starts = kinds
    .flatMap(({ kind }) => kind.lines.map((line) => ({ line, kind })))
    .sort((a, b) => a.line - b.line);
  const missedOn = new Map<number, string[]>();
  for (const { event, line } of score.missed) {
    const start = line === undefined ? undefined : starts.findLast((one) => one.line <= line);
    const unused = report.unused.find(({ kind }) => kind === start?.kind);
    if (unused !== undefined) missedOn.set(unused.firstLine, [...(missedOn.get(unused.firstLine) ?? []), event]);
  }
  let told = 0;
  let offered = 0;
  for (const { firstLine, nearest } of report.unused)
    for (const event of missedOn.get(firstLine) ?? []) {
      told++;
      if (nearest.some((name) => isSameEvent(name, event))) offered++;
    }
  let questions = 0;
  let keys = 0;
  let beyond = 0;
  const after = await askThrough(
    report,
    null,
    (question): Promise<Answer> => {
      questions++;
      beyond = question.beyond;
      const missed = missedOn.get(question.firstLine) ?? [];
      const most = [...new Set(missed)].sort((a, b) => count(missed, b) - count(missed, a))[0];
      const at = most === undefined ? -1 : question.nearest.findIndex((name) => isSameEvent(name, most));
      const taken = question.nearest[at];
      // `ignore` stands right behind what is offered.
      keys += 1 + (at < 0 ? question.nearest.length : at);
      return Promise.resolve(taken !== undefined ? { event: taken } : 'ignore');
    },
    () => Promise.resolve(),
  );
  const walked = await scoreDialect(folder, log, after);
  return {
    told,
    offered,
    questions,
    keys,
    beyond,
    before: score.right / score.truth,
    after: walked.right / walked.truth,
    wrongAfter: walked.wrong / walked.truth,
  };
}

function count(names: readonly string[], name: string): number {
  return names.filter((one) => one === name).length;
}
