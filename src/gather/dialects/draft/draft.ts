import { beginOf, endOf, type EventName } from '../../../model/index.js';
import { clockDoubts } from './audit/clock-doubts.js';
import { withoutContradicted } from './audit/doubting.js';
import { readByDraft } from './audit/drafted-night.js';
import { verdictOn, withoutContradicting } from './audit/verdict.js';
import { isBinary } from './binary.js';
import { exposureAgreement } from './frames/exposure-agreement.js';
import { stampsByFrames } from './frames/stamps-by-frames.js';
import { judgedByFrames } from './frames/judged-by-frames.js';
import { changesIn } from './kinds/changes.js';
import { marksSteps } from './kinds/marks-in-turn.js';
import { isDoubled, onceEach } from './reading/doubled.js';
import { oldestFirst } from './reading/newest-first.js';
import { readingOf } from './reading/reading-of.js';
import { hasDittos, sheetRows } from '../sheet/sheet-rows.js';
import type { Draft, DraftReport } from './report.js';
import type { LogSample } from './sample.js';
import type { HeadLine } from './time/date-source.js';
import { type CsvLayout, csvLayout, splitRow } from './layout/csv-layout.js';
import { type Unnumbered, unnumbered } from './layout/line-numbers.js';
import { namedCells } from './reading/field-reading.js';
import { carriedTimes } from './time/carried-times.js';
import { hasDay } from './time/guess.js';
import { type DraftHints, surveyOf } from './survey.js';
import { usableDraft } from './usable-draft.js';
import { writeDraft } from './write-draft.js';

/** A draft that uses less than this fraction of lines may have misread the layout. */
const TOO_LITTLE = 0.05;
const MUCH_MORE = 3;
/** Nor need a draft be right that leaves most lines unused if a reading as text uses this many times more. */
const LESS_THAN_HALF = 0.5;
const MORE = 1.5;
/**
 * If this fraction of spans begins and never ends, one kind of row may cover both sides: its lines are tried as text.
 */
const NEVER_ENDING = 0.1;
const AS_MUCH = 0.6;
const MUCH_LESS = 0.3;
const LITTLE = 0.02;
/** Readings of digits that are tried where no other clock is proved. */
const MOST_STAMPS = 3;
/** Weight of guiding samples relative to lines used by rules. */
const GUIDED = 0.2;

/**
 * Drafts a dialect for an unknown log: detects its encoding, layout and stamps, sorts its lines into kinds, and
 * proposes events based on their words, values and neighbours. Rules that contradict the resulting timeline are
 * withdrawn.
 */
export function draftDialect(sample: LogSample, hints: DraftHints = {}): Draft {
  const plain = besideFrames(sample, hints);
  const sheet = sheetOf(sample);
  const turned = sheet === null ? null : besideFrames(sheet, hints);
  const isTurned =
    turned !== null && eventCount(turned) > (hasDittos(sample.lines) ? LESS_THAN_HALF : 1) * eventCount(plain);
  const report = isTurned ? turned : plain;
  const own = report === turned && sheet !== null ? sheet : sample;
  const usable = usableDraft(report, own);
  // What could not be used could not be read by either: only now can the timeline contradict it.
  const settled = judged(own, usable === report ? report : usableDraft(withoutContradicted(own, usable), own), hints);
  const proved = settled.provedBy === undefined ? byProvedStamps(own, hints) : null;
  const final = proved ?? settled;
  return { yaml: writeDraft(final), report: final };
}

/** A draft by digits of the lines that no word explains, but in which the lines coincide with the frames. */
function byProvedStamps(sample: LogSample, hints: DraftHints): DraftReport | null {
  const { frames = [] } = hints;
  const isLines = (sample.document ?? null) === null && sample.isRows !== true && !isBinary(sample.lines);
  if (frames.length === 0 || !isLines) return null;
  for (const stamp of stampsByFrames(sample, frames).slice(0, MOST_STAMPS)) {
    const report = besideFrames(sample, { ...hints, stamp });
    const settled = judged(sample, usableDraft(report, sample), hints);
    if (settled.provedBy !== undefined) return settled;
  }
  return null;
}

/**
 * The draft with the verdict on the whole; if it is bad, without what contradicts itself more than it explains. One
 * whose clock is not understood is not judged: its times are left out.
 */
function judged(
  sample: LogSample,
  asDrafted: DraftReport,
  { frames = [], night: beside = {} }: DraftHints,
): DraftReport {
  const { report, isSettled } = judgedByFrames(sample, asDrafted, frames, beside);
  const night = readByDraft(sample, report);
  const doubts = isSettled ? (report.clockDoubts ?? []) : clockDoubts(sample, report, night, frames);
  if (doubts.length > 0) return { ...report, clockDoubts: doubts };
  const signsOfWrong = [...(report.signsOfWrong ?? []), ...(night === null ? [] : verdictOn(night))];
  return night === null || signsOfWrong.length === 0
    ? report
    : { ...withoutContradicting(report, night), signsOfWrong };
}

/** A sheet kept by hand as the plain tables that it becomes, `null` where a log is none. */
function sheetOf(sample: LogSample): LogSample | null {
  const isDocument = (sample.document ?? null) !== null;
  const lines = isDocument || sample.isRows === true || isBinary(sample.lines) ? null : sheetRows(sample.lines);
  if (lines === null) return null;
  return { ...sample, lines, totalLines: lines.filter((line) => line.trim() !== '').length, isSheet: true };
}

/** Number of events reported by the rules of a draft. */
function eventCount({ rules }: DraftReport): number {
  return rules.reduce((sum, { count, events, lasts, lasted }) => {
    const derived = lasts === undefined && lasted === undefined ? 0 : 1;
    return sum + count * (events.length + derived);
  }, 0);
}

/**
 * What the lines say by themselves is taken where it agrees with the frames: with their help another reading of them is
 * tried only where it does not.
 */
function besideFrames(sample: LogSample, hints: DraftHints): DraftReport {
  const { frames = [] } = hints;
  const alone = withoutContradicted(sample, survey(sample, { ...hints, isByInstants: false }));
  if (frames.length === 0) return alone;
  const own = exposureAgreement(readByDraft(sample, alone), frames);
  if (own.isGood) return alone;
  const helped = withoutContradicted(sample, survey(sample, hints));
  return exposureAgreement(readByDraft(sample, helped), frames).worth > own.worth ? helped : alone;
}

function survey(sample: LogSample, hints: DraftHints): DraftReport {
  const isText = !isBinary(sample.lines);
  const all = (isText ? sample.lines : []).flatMap((text, i): HeadLine[] =>
    text.trim() === '' ? [] : [{ text, number: i + 1 }],
  );
  const isDocument = (sample.document ?? null) !== null;
  const doubled = !isDocument && isDoubled(all);
  const lines = doubled ? onceEach(all) : all;
  const cut = isDocument ? null : unnumbered(lines);
  const numbered = cut === null || isTable(sample, lines) ? null : numberedSurvey(sample, hints, cut);
  return { ...(numbered ?? plainSurvey(sample, hints, isText, lines)), doubled };
}

/** Whether lines are a table under a header row: it may number its rows in a column of its own. */
function isTable({ isRows }: LogSample, lines: readonly HeadLine[]): boolean {
  const table = csvLayout(lines.map(({ text }) => text));
  return table !== null && table.headerIndex >= 0 && (isRows !== true || leavesOutTimes(lines, table));
}

/** Whether rows of a table leave out a time that is that of the row above. */
function leavesOutTimes(lines: readonly HeadLine[], { columns, delimiter, headerIndex }: CsvLayout): boolean {
  const rows = lines.slice(headerIndex + 1).map(({ text }) => splitRow(text, delimiter));
  return carriedTimes(rows.map((cells) => ({ fields: namedCells(columns, cells) }))) !== null;
}

/** Surveys a log in another order than that of its lines, such as in reverse. */
function inOrderSurvey(
  sample: LogSample,
  lines: readonly HeadLine[],
  survey: (texts: LogSample, ordered: readonly HeadLine[]) => DraftReport,
): DraftReport {
  const ordered = lines.map((line, i) => ({ ...line, number: i + 1 }));
  const report = survey({ ...sample, lines: ordered.map(({ text }) => text) }, ordered);
  const written = <T extends { readonly firstLine: number }>(one: T): T => ({
    ...one,
    firstLine: lines[one.firstLine - 1]?.number ?? one.firstLine,
  });
  return { ...report, rules: report.rules.map(written), unused: report.unused.map(written) };
}

/** Surveys a log with numbered lines, where times directly follow the numbers. */
function numberedSurvey(sample: LogSample, hints: DraftHints, cut: Unnumbered): DraftReport | null {
  const rest = (cut.inOrder ?? cut.lines).filter(({ text }) => text.trim() !== '');
  const plain = (texts: LogSample, lines: readonly HeadLine[]): DraftReport => plainSurvey(texts, hints, true, lines);
  const report = cut.inOrder === null ? plain(sample, rest) : inOrderSurvey(sample, rest, plain);
  const { stamp } = report;
  if (stamp?.at !== 'start' || report.layout !== null) return null;
  const behind = (pattern: string): string => `${cut.prefix}${pattern}`;
  return {
    ...report,
    stamp: { ...stamp, pattern: behind(stamp.pattern), ...(stamp.more ? { more: stamp.more.map(behind) } : {}) },
  };
}

function plainSurvey(sample: LogSample, hints: DraftHints, isText: boolean, lines: readonly HeadLine[]): DraftReport {
  const document = sample.document ?? null;
  if (hints.stamp !== undefined)
    return surveyOf(sample, hints, isText, lines, readingOf(lines, sample.file, null, true, hints.stamp));
  const reading = readingOf(lines, sample.file, document);
  const turned =
    document === null ? oldestFirst(lines, reading, () => readingOf(lines.toReversed(), sample.file)) : null;
  const report =
    turned === null
      ? surveyOf(sample, hints, isText, lines, reading)
      : inOrderSurvey(sample, turned, (texts, ordered) =>
          surveyOf(texts, hints, true, ordered, readingOf(ordered, sample.file)),
        );
  if (report.layout === null || document !== null) return report;
  if (reading.stamp?.isTrusted === true) return report;
  // Columns of devices say sentences, several on a row.
  if (report.layout.kind === 'csv' && (report.layout.each ?? []).length > 0) return report;
  if (changesIn(reading.fieldLines, reading.timePaths) !== null) return report;
  const isMarked = report.states.length === 0 && marksSteps(reading.fieldLines);
  if (!isMarked && (report.states.length > 0 || report.keyed !== null)) return report;
  const [used, neverEnding] = [shareUsed(report), shareNeverEnding(report)];
  // Rows whose columns clearly describe exposures are not sentences.
  const isTable = report.layout.kind === 'csv' && 'headerIndex' in report.layout && report.layout.headerIndex >= 0;
  const shots = report.rules.filter(
    ({ kind, lasts, lasted, events }) =>
      (kind.exposure !== undefined || (isTable && events.some(({ event }) => event === 'exposure-begin'))) &&
      (lasts !== undefined || lasted !== undefined || events.length > 1),
  );
  if (used >= LESS_THAN_HALF && shots.length > 0 && !isMarked) return report;
  const isOpen = neverEnding >= NEVER_ENDING * used || isMarked;
  if (used >= LESS_THAN_HALF && !isOpen) return report;
  // Apparent records or rows may still be sentences.
  const asText = surveyOf(sample, hints, isText, lines, readingOf(lines, sample.file, null, true));
  // Reading as text loses times in record fields, and would create rules for untimed lines.
  if (asText.stamp === null && report.stamp !== null) return report;
  // Nor may it lose the column with the day.
  if (hasDay(report.stamp) && !hasDay(asText.stamp)) return report;
  const isSameClock = report.stamp !== null && asText.stamp?.pattern.includes(report.stamp.pattern) === true;
  const isBetter =
    shareUsed(asText) > (used >= TOO_LITTLE && isSameClock ? MORE : MUCH_MORE) * used ||
    (isOpen &&
      shareUsed(asText) >= AS_MUCH * used &&
      shareNeverEnding(asText) <= Math.max(LITTLE, MUCH_LESS * neverEnding));
  return isBetter ? asText : report;
}

/** The fraction of lines that begin spans of a sort that nothing ends. */
function shareNeverEnding({ rules, linesSeen }: DraftReport): number {
  const ended = new Set<EventName>(
    rules.flatMap(({ events, lasts }) =>
      events.flatMap(({ event }) => [beginOf(event) ?? [], lasts === undefined ? [] : event]).flat(),
    ),
  );
  // A movement settles eventually, whether or not a line reports that it is complete.
  if (ended.has('settling-begin')) ended.add('dither-begin');
  const open = rules.filter(({ events }) =>
    events.some(({ event }) => beginOf(endOf(event) ?? event) === event && !ended.has(event)),
  );
  return open.reduce((sum, { count }) => sum + count, 0) / Math.max(1, linesSeen);
}

/** The fraction of a log's lines that a draft uses. */
function shareUsed({ rules, guiding, linesSeen }: DraftReport): number {
  const used = rules.reduce((sum, { count }) => sum + count, 0) / Math.max(1, linesSeen);
  return used + (guiding === undefined ? 0 : GUIDED);
}
