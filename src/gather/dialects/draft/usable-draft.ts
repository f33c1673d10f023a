import type { Warning } from '../../../model/index.js';
import { loadDialect } from '../load.js';
import { wasReadBy } from './audit/drafted-night.js';
import type { DraftReport } from './report.js';
import type { LogSample } from './sample.js';
import { writeDraft } from './write-draft.js';
import { writeUnused } from './write-rules.js';

/** Parts left out at most; what still cannot be used then is left out altogether. */
const MOST_LEFT_OUT = 20;
/** Far below what a dialect may have. */
const FEW_CHARACTERS = 30_000;

/**
 * The draft as it can be loaded: parts that a dialect cannot have are left out one by one, those that cost least first,
 * and a comment of the draft says so. The same object where nothing is wrong.
 *
 * @param sample the lines of the draft; one that an audit has just read them by is not loaded once more
 */
export function usableDraft(report: DraftReport, sample?: LogSample): DraftReport {
  if (sample !== undefined && isOfferShort(report) && wasReadBy(sample, report)) return report;
  let rest = report;
  for (let left = 0; left < MOST_LEFT_OUT; left++) {
    const problems = problemsOf(rest);
    const [first] = problems;
    if (first === undefined) return rest;
    const better = withoutOne(rest).find((one) => problemsOf(one.report).length < problems.length);
    if (better === undefined) break;
    rest = noted(better.report, better.what, first);
  }
  const [problem] = problemsOf(rest);
  return problem === undefined ? rest : noted(emptied(rest), 'everything', problem);
}

/** Whether what a draft only offers, which no audit loads, is a few lines of comment: they cannot make it unusable. */
function isOfferShort(report: DraftReport): boolean {
  const lines = writeUnused(report);
  const length = lines.reduce((sum, line) => sum + line.length, 0);
  return length <= FEW_CHARACTERS && lines.every((line) => /^(?:#[^\r\n]*)?$/.test(line));
}

/** A draft without one of its parts, and what that is. */
interface Less {
  readonly what: string;
  readonly report: DraftReport;
}

function problemsOf(report: DraftReport): readonly Warning[] {
  const { dialect, warnings } = loadDialect('draft.yaml', writeDraft(report));
  return dialect === null ? warnings : [];
}

function noted(report: DraftReport, what: string, { message }: Warning): DraftReport {
  const why = message.replace(/^The dialect draft\.yaml(?:, line \d+)? cannot be used: /, '');
  return { ...report, leftOut: [...(report.leftOut ?? []), { what, why }] };
}

/** The draft without each of the parts that a dialect can do without, those that cost least first. */
function withoutOne(report: DraftReport): readonly Less[] {
  const { stamp, caught, date, sections, jobs, guiding, rules } = report;
  const more = stamp?.more ?? [];
  const { guiding: _, ...withoutGuiding } = report;
  const { caught: __, ...withoutCaught } = report;
  return [
    ...(date.from === 'header' || date.from === 'file'
      ? [{ what: 'where the date stands', report: { ...report, date: { from: 'session' } as const } }]
      : []),
    ...(caught === undefined ? [] : [{ what: 'the form of further times in the lines', report: withoutCaught }]),
    ...sections.map((section) => ({
      what: 'a line that times count from',
      report: { ...report, sections: sections.filter((one) => one !== section) },
    })),
    ...(jobs === null ? [] : [{ what: 'how lines name jobs', report: { ...report, jobs: null } }]),
    ...rules.map((rule) => ({
      what: `the rule of line ${rule.firstLine}`,
      report: { ...report, rules: rules.filter((one) => one !== rule) },
    })),
    ...(guiding === undefined ? [] : [{ what: 'the rule of guiding samples', report: withoutGuiding }]),
    ...(stamp === null
      ? []
      : more.map((pattern) => ({
          what: `the time pattern ${pattern}`,
          report: { ...report, stamp: { ...stamp, more: more.filter((one) => one !== pattern) } },
        }))),
    ...(stamp === null || more.length === 0
      ? []
      : [
          {
            what: `the time pattern ${stamp.pattern}`,
            report: { ...report, stamp: { ...stamp, pattern: more[0] ?? stamp.pattern, more: more.slice(1) } },
          },
        ]),
  ];
}

/** What is left of a draft in which no part can be used: the frame to write a dialect in. */
function emptied(report: DraftReport): DraftReport {
  const { guiding: _, caught: __, ...rest } = report;
  return {
    ...rest,
    layout: null,
    stamp: null,
    orderIsOpen: false,
    date: { from: 'line' },
    sections: [],
    entries: null,
    doubled: false,
    states: [],
    keyed: null,
    stateLines: null,
    jobs: null,
    rules: [],
  };
}
