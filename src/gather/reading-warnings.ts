/**
 * What is said of a log that was read: the reader's own warnings, or one that says what to do where nothing of it could
 * be used.
 */
import { counted, partition, type Warning } from '../model/index.js';
import type { LogRead } from './lines/log-read.js';
import type { SessionFile } from './session-files.js';

/** A log as the rig file names it. */
export interface ReadLog {
  readonly file: SessionFile;
  readonly role: 'event-log' | 'guiding-log';
  readonly train?: string;
  readonly dialect?: string;
  /** Guiding samples that the rig file names among a train's logs. */
  readonly isMisplaced?: boolean;
}

type Reading = Pick<LogRead, 'lines' | 'events' | 'guiding' | 'warnings'>;

/** Warnings of one log; those of its lines are left out where they all say the same. */
export function readingWarnings(log: ReadLog, read: Reading): Warning[] {
  const isUsed = read.events.length > 0 || read.guiding !== undefined;
  const unused = isUsed ? null : ((log.dialect === undefined ? withoutDialect(log, read) : null) ?? silent(log, read));
  return [...(log.isMisplaced ? [misplaced(log)] : []), ...(unused === null ? read.warnings : [unused])];
}

/** A log that was read without a word and has nothing to say: empty, or a head with no rows under it. */
function silent(log: ReadLog, { lines, warnings }: Reading): Warning | null {
  if (warnings.length > 0) return null;
  const holds = lines === 0 ? 'is empty' : `holds no ${log.role === 'guiding-log' ? 'guiding sample' : 'event'}`;
  return {
    code: 'log-says-nothing',
    message:
      `${log.file.path} (${ownerOf(log)}) ${holds}, so nothing from it is in this report; ` +
      'copy it again from the computer that wrote it, or take it out of the rig file',
    source: { file: log.file.path },
  };
}

/** Codes of lines that are not of our own formats. */
const EVENT_LINES = ['broken-line', 'unfinished-line'];
const GUIDING_LINES = ['no-header', 'unreadable-time', 'unreadable-sample', 'unfinished-line'];

/**
 * A log named without a dialect and without a line in our own format: reported once, with what to do, instead of line
 * by line.
 */
function withoutDialect(log: ReadLog, { lines, warnings }: Reading): Warning | null {
  const isGuiding = log.role === 'guiding-log';
  const [ofLines, others] = partition(warnings, ({ code }) => (isGuiding ? GUIDING_LINES : EVENT_LINES).includes(code));
  if (others.length > 0 || !ofLines.some(({ code }) => code !== 'unfinished-line')) return null;
  const first = ofLines.find(({ code }) => code.startsWith('unreadable-'));
  const why = isGuiding && first !== undefined ? ` ${first.message}` : '';
  return {
    code: 'log-without-dialect',
    message:
      `none of the ${counted(lines, 'line')} of ${log.file.path} (${ownerOf(log)}) is one of nightledger’s own ` +
      `${isGuiding ? 'guiding samples' : 'event log'}, so nothing from it is in this report: name a dialect: ` +
      `beside it in the rig file (nightledger dialect draft "${log.file.path}" --session . writes a starter, in the ` +
      `session's folder).${why}`,
    source: isGuiding ? (first?.source ?? { file: log.file.path }) : { file: log.file.path },
    count: lines,
  };
}

function misplaced({ file, train = '' }: ReadLog): Warning {
  return {
    code: 'guiding-log-misplaced',
    message:
      `${file.path} is listed among the logs of ${train} but contains guiding samples; it was read as such. Name ` +
      'it under guiding: in the rig file, with what guides (source: off-axis or guide-scope)',
    source: { file: file.path },
  };
}

function ownerOf({ role, train }: ReadLog): string {
  return role === 'guiding-log' ? 'guiding' : (train ?? 'no train');
}
