import { basename } from 'node:path/posix';
import { type StampKind, StampPattern } from '../time/stamp.js';
import type { StampGuess } from './time/guess.js';
import type { FrameTimes } from '../check/agreement.js';
import type { NightOfFrames } from './frames/read-beside.js';
import { frameEvidence } from './frame-evidence.js';
import { draftRules } from './draft-rules.js';
import { legendOf } from './legend.js';
import { shortCodes } from './legend-words.js';
import { explained, isShift, legendLines } from './explained.js';
import { guidingIn, listedIn, ownCountOf } from './guiding-found.js';
import { rowsWithErrors } from './guiding-in-rows.js';
import { linesInCards } from './guiding-in-cards.js';
import { withoutSamples } from './guiding-lists.js';
import { withWholeWords } from './kinds/abbreviations.js';
import { withoutBullets } from './kinds/bullets.js';
import { withConstantTexts } from './kinds/constant-texts.js';
import { ofGuiding } from './of-guiding.js';
import { inLanguage } from './kinds/in-language.js';
import { kindsOfLog } from './kinds/kinds-of-log.js';
import { marksInTurn } from './kinds/marks-in-turn.js';
import { wordsInTurn } from './kinds/words-in-turn.js';
import { withoutLevels } from './kinds/levels.js';
import type { OwnStamp } from './kinds/parts.js';
import { rowsOfStates, withStates } from './kinds/rows-of-states.js';
import { withoutSeparators } from './kinds/separators.js';
import { withSources } from './kinds/sources.js';
import { withElapsedFields } from './kinds/elapsed-fields.js';
import { withUnnamedLengths } from './kinds/unnamed-lengths.js';
import { usesDecimalComma } from './reading/decimal-comma.js';
import { jobsIn } from './reading/jobs.js';
import { changesIn, stateLinesIn } from './reading/state-lines.js';
import type { Reading } from './reading/reading.js';
import type { DraftReport, UnusedLines, ZoneHint } from './report.js';
import type { LogSample } from './sample.js';
import { datesInCells } from './time/dates-in-cells.js';
import { dateSource, type HeadLine } from './time/date-source.js';
import { withOffsets } from './time/heading-offsets.js';
import { headedByEvenings } from './time/under-evenings.js';
import { dateInOrder, nightOf, sectionInOrder, stampInOrder } from './time/settled-order.js';
import { clockError } from './time/composed/clock-error.js';
import { zoneIn } from './time/zone-statement.js';
import { caughtPatterns } from './time/caught-pattern.js';
import { inWords } from './in-words.js';
import { layoutDraft } from './layout-draft.js';
import { withSlotNames } from './slot-names.js';
import { namesToIds } from './train-ids.js';
import { isUsable } from './usable-pattern.js';

/** Number of lines at the beginning that may state the date, the zone or the base of relative times. */
const HEAD_LINES = 60;
const STAMPED_HEAD = 5;
/** Number of stamped lines that may state the date. */
const STAMPED_LOOKED_AT = 5000;

/** Other known facts about the log's night. */
export interface DraftHints {
  /** The session's frames: lines that coincide with them open the shutter, files among them were saved. */
  readonly frames?: readonly FrameTimes[];
  /** Whether lines that coincide with frames open and close the shutter: not as long as they say so by themselves. */
  readonly isByInstants?: boolean;
  /** The night of these frames, as far as known. */
  readonly night?: NightOfFrames;
  /** The stamps of its lines, where the frames prove them. */
  readonly stamp?: StampGuess;
  /** The zone of its times, if known from outside the log. */
  readonly zone?: ZoneHint;
}

/** The result of one reading of a log: its kinds of line, their events, and how its times are read. */
export function surveyOf(
  sample: LogSample,
  { frames = [], isByInstants = true, zone }: DraftHints,
  isText: boolean,
  lines: readonly HeadLine[],
  asLogged: Reading,
): DraftReport {
  const { reading, asWritten, legend: explainedCodes } = inWords(asLogged);
  const night = nightOf(sample, lines.slice(0, HEAD_LINES), frames);
  const { stamp, orderBy } = stampInOrder(reading, lines, night);
  const head = reading.unstamped.slice(0, HEAD_LINES);
  const decimalComma = usesDecimalComma(reading);
  const jobs = reading.layout.kind === 'text' ? jobsIn(reading.messages) : null;
  const stateLines = jobs === null && reading.layout.kind === 'text' ? stateLinesIn(reading.messages) : null;
  const listed = listedIn(reading, lines);
  const fieldLines = listed === null ? reading.fieldLines : withoutSamples(reading.fieldLines, listed);
  const headTexts = lines.slice(0, HEAD_LINES).map(({ text }) => text);
  const explaining = legendLines(reading, headTexts).filter((text) => !explainedCodes.has(text));
  const messages = changesIn(reading.messages, stateLines);
  const codes = shortCodes(explaining);
  const kinds = kindsOfLog({ sample, reading, decimalComma, fieldLines, messages, jobs, codes }).map(asWritten);
  const legendAt = new Set(lines.flatMap(({ text, number }) => (explainedCodes.has(text) ? [number] : [])));
  // A legend's own lines do not use its codes.
  const timed = kinds.filter(({ atMs }) => atMs.some((ms) => !Number.isNaN(ms)));
  const [wordings, timedWordings] = [kinds, timed.length > 0 ? timed : kinds].map((all) =>
    all.map(({ wording }) => wording),
  );
  const legend = legendOf(explaining, wordings, timedWordings);
  const tables = reading.tables ?? [{ fieldLines, timePaths: reading.timePaths }];
  const stating = rowsOfStates(tables);
  const found = guidingIn(
    // What the log itself calls a shift is not a sample, although it has two signed numbers.
    [...kinds, ...linesInCards(reading, decimalComma)].filter((kind) => !isShift(kind, legend)),
    {
      lines,
      headTexts,
      decimalComma,
      listed,
      own: ownCountOf(reading),
      rowed: stating.rows === null ? null : rowsWithErrors(stating.rows.fieldLines, decimalComma),
    },
  );
  const others = kinds.filter((kind) => !found.samples.has(kind));
  const { kinds: rest, states, keyed } = withStates(others, tables, stating, decimalComma, found.isAll);
  const ofEvents = withElapsedFields(
    withUnnamedLengths(
      inLanguage(
        wordsInTurn(
          marksInTurn(
            withConstantTexts(
              withSources(withoutSeparators(withoutLevels(withWholeWords(withoutBullets(rest.map(asWritten)))))),
            ),
          ),
        ),
      ).map((kind) => explained(kind, legend, found.isAll)),
    ),
  );
  const { rules, unused, usesCaughtTimes, trains } = draftRules(ofEvents, {
    extra: frameEvidence(ofEvents, frames, found.evidence, isByInstants),
    ownStamp: ownStampOf(reading),
    only: found.isAll ? ofGuiding : undefined,
    counted: reading.counted?.read,
    again: reading.again?.read,
    isOfMinutes: stamp !== null && isOfMinutes(stamp),
  });
  const { bases, doubtfulTimes } = reading;
  const error = stamp?.isTrusted === true ? null : clockError([...reading.timePaths, ...head.map(({ text }) => text)]);
  const stampKind = bases.some(({ hasDay }) => !hasDay) ? 'time' : kindOfStamps(stamp, reading);
  const source =
    (stampKind === 'time'
      ? datesInCells(reading, basename(sample.file), [...head, ...lines.slice(0, HEAD_LINES)])
      : null) ??
    withOffsets(
      dateSource(stampKind, sample.file, {
        unstamped: reading.loose,
        stamped: reading.messages.slice(0, STAMPED_LOOKED_AT).map(({ text, line }) => ({ text, number: line })),
        lines: stamp?.at === 'anywhere' ? lines : [],
        titles: reading.titles ?? [],
        last: lastStamped(reading),
        clocks: reading.messages,
        known: { days: frames.map(({ beginMs }) => beginMs), writtenMs: sample.writtenMs ?? NaN },
      }),
      reading.loose,
    );
  const dated = dateInOrder(headedByEvenings(source, reading), sample.lines, sample.file, night);
  const counted = bases.map((base) => sectionInOrder(base, night));
  const caught = [
    ...(usesCaughtTimes
      ? (reading.counted ?? reading.again ?? null) === null
        ? caughtPatterns(kinds, reading.otherPatterns ?? [])
        : [(reading.counted ?? reading.again)?.pattern ?? []].flat()
      : []),
    ...found.caught,
  ];
  return {
    file: sample.file,
    encoding: sample.encoding,
    lineEnding: sample.lineEnding,
    objects: sample.objects ?? 0,
    document: sample.document ?? null,
    ...{ isRows: sample.isRows === true, isSheet: sample.isSheet === true },
    totalLines: sample.totalLines,
    linesSeen: lines.length,
    layout: layoutDraft(reading),
    stamp,
    zoneBy: zone?.by ?? null,
    zone:
      zone?.name ??
      stamp?.zone ??
      zoneIn(
        [
          ...bases.flatMap(({ line, section }) => ('file' in section ? [] : [line.text])),
          ...head.map(({ text }) => text),
          ...headTexts.slice(0, STAMPED_HEAD),
          ...reading.timePaths,
        ],
        [...reading.messages.slice(0, HEAD_LINES), ...reading.fieldLines.slice(0, 1)].find(
          ({ atMs }) => !Number.isNaN(atMs),
        )?.atMs,
      ),
    orderBy,
    orderIsOpen: stamp?.dayFirstAssumed === true || dated.isOpen || counted.some(({ isOpen }) => isOpen),
    date: dated.date,
    ...(error === null ? {} : { ahead: error.seconds }),
    sections: [
      ...(stamp?.from === undefined ? [] : [{ from: stamp.from }]),
      ...counted.map(({ section }) => section),
      ...(found.section === null ? [] : [found.section]),
    ],
    doubtfulTimes,
    entries: reading.entries,
    doubled: false,
    states,
    keyed,
    stateLines,
    jobs,
    decimalComma,
    trains: namesToIds(rules, trains, headTexts),
    ...(caught.length > 0 ? { caught: [...new Set(caught)] } : {}),
    rules: withSlotNames(rules, trains, headTexts).filter(({ when }) => isUsable(when)),
    ...(found.guiding === undefined ? {} : { guiding: found.guiding }),
    unused: unused.filter(
      (one) => isListed(one) && isUsable(one.when) && !one.kind.lines.every((line) => legendAt.has(line)),
    ),
    isText,
    warnings: sample.warnings,
  };
}

/** Prose states all of its times in its sentences; elsewhere one of them may be the line's own. */
function ownStampOf({ stamp, entries, isInCards }: Reading): OwnStamp {
  const isProse = typeof entries === 'object' && entries !== null && isInCards !== true;
  if (stamp?.at !== 'anywhere' || isProse || entries === 'stamps') return 'apart';
  return stamp.pattern.includes('{elapsed') ? 'counts' : 'of-day';
}

/** What the stamps lack: one of several tables may have times of day only, one of several writers states no year. */
function kindOfStamps(stamp: StampGuess | null, { tables }: Reading): StampKind | null {
  if (stamp === null) return null;
  const [kind, ...others] = [stamp.pattern, ...(stamp.more ?? [])].map((pattern) => new StampPattern(pattern).kind);
  if (kind === 'time' || (tables !== undefined && others.includes('time'))) return 'time';
  return [kind, ...others].find((one) => one === 'month-day-time') ?? kind ?? null;
}

/** The number of the last line with a stamp, 0 if there is none. */
function lastStamped({ messages, fieldLines }: Reading): number {
  const lines = [messages, fieldLines].map((own) => own.findLast(({ atMs }) => !Number.isNaN(atMs))?.line ?? 0);
  return Math.max(...lines);
}

/** Whether stamps have hours and minutes only. */
function isOfMinutes({ pattern }: StampGuess): boolean {
  return /\{minute\}/.test(pattern) && !/\{second\}|\{fraction\}/.test(pattern);
}

/** No rule could identify rows without words. */
function isListed({ when }: UnusedLines): boolean {
  return typeof when === 'string' || Object.keys(when).length > 0;
}
