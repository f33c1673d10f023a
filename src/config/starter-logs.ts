/**
 * The lines of a starter rig file that name logs: whose they look like, how to describe them, what to write.
 */
import { ownValue } from '../model/index.js';
import { scalar } from './starter-scalar.js';
import type { TrainConfig } from './types.js';

/** The logs found in the session folder. */
export interface FoundLogs {
  /** Log-like files, by their paths in the session folder. */
  readonly logs: readonly string[];
  /** Those in nightledger's own formats, which need no dialect. */
  readonly ownFormat: readonly string[];
  /** The user's dialects that fit, by paths of logs. */
  readonly dialects: Readonly<Record<string, string>>;
  /** The owner of each log, by its path, and the evidence; absent if its name shows it. Unknown ones are left out. */
  readonly owners: Readonly<Record<string, { readonly train: string; readonly by?: string }>>;
}

/** More logs than this are not listed. */
const MOST_LOGS = 6;

/** An entry to edit: one that several trains can have without naming each other's logs. */
function exampleFor({ id }: TrainConfig, trains: readonly TrainConfig[]): string {
  const own = trains.length > 1 && /^[\p{L}\p{N}_-]+$/u.test(id) ? id : '';
  return `# logs: [ { files: "logs/${own}*.jsonl" } ]   # or { files: "…", dialect: "…" } for another program's log`;
}

/** The lines of one train: its logs, or else all with an unknown owner. */
export function trainLogLines(train: TrainConfig, trains: readonly TrainConfig[], found: FoundLogs): string[] {
  const whose = (log: string): string | undefined =>
    trains.length === 1 ? train.id : ownValue(found.owners, log)?.train;
  const isOf = (log: string): boolean => whose(log) === train.id;
  const all = found.logs.filter((log) => !isOfGuiding(log));
  const own = all.filter(isOf);
  const open = all.filter((log) => whose(log) === undefined);
  const logs = own.length > 0 ? own : open;
  const fitting = Object.entries(found.dialects);
  const because = (log: string): string => {
    const by = ownValue(found.owners, log)?.by;
    return by === undefined ? '' : `; ${by}`;
  };
  const isOwn = (log: string): boolean => found.ownFormat.includes(log);
  const ready = own.filter(isOwn);
  if (ready.length > 0) return readyLines(ready, logs, found, because);
  const fits = fitting.filter(([log]) => isOf(log));
  if (fits.length > 0)
    return [
      '    logs:',
      ...fits.map(
        ([log, dialect]) =>
          `      - { files: ${scalar(log)}, dialect: ${scalar(dialect)} }   # your dialect fits${because(log)}`,
      ),
    ];
  const asked = fitting.filter(([log]) => whose(log) === undefined);
  if (asked.length > 0 && own.length === 0)
    return asked.map(
      ([log, dialect]) =>
        `    # logs: [ { files: ${scalar(log)}, dialect: ${scalar(dialect)} } ]   # fits; is it a log of this train?`,
    );
  if (logs.length === 0) return [`    ${exampleFor(train, trains)}`];
  return [
    own.length > 0
      ? '    # Logs of this train. Draft a dialect for each, then remove the # of the last lines;'
      : '    # Logs in this folder whose train is not known. Keep those of this train, draft a dialect for each,',
    own.length > 0
      ? '    # a log in nightledger’s own format needs no dialect.'
      : '    # then remove the # of the last lines; a log in nightledger’s own format needs no dialect.',
    ...logs.slice(0, MOST_LOGS).flatMap((log) => (isOwn(log) ? [] : [`    #   ${draftCommand(log, found.logs)}`])),
    '    # logs:',
    ...logs
      .slice(0, MOST_LOGS)
      .map(
        (log) =>
          `    #   - ${isOwn(log) ? `{ files: ${scalar(log)} }` : selector(log, found.logs)}${commentOf(because(log))}`,
      ),
  ];
}

/** Logs that are read as they are, and beside them, to look at, those that are not. */
function readyLines(
  ready: readonly string[],
  logs: readonly string[],
  found: FoundLogs,
  because: (log: string) => string,
): string[] {
  const fitting = Object.entries(found.dialects);
  const fitted = fitting.filter(([log]) => logs.includes(log) && !ready.includes(log));
  const others = logs.filter((log) => !ready.includes(log) && !fitted.some(([own]) => own === log)).slice(0, MOST_LOGS);
  return [
    '    logs:',
    ...ready.map((log) => `      - { files: ${scalar(log)} }   # in nightledger’s own format${because(log)}`),
    ...fitted.map(
      ([log, dialect]) =>
        `      - { files: ${scalar(log)}, dialect: ${scalar(dialect)} }   # your dialect fits${because(log)}`,
    ),
    ...others.flatMap((log) => [`      # ${draftCommand(log, found.logs)}`, `      # - ${selector(log, found.logs)}`]),
  ];
}

/** The logs of the guiding section: those that are called so. */
export function guidingLogLine({ logs, ownFormat }: FoundLogs): string {
  const own = logs.filter(isOfGuiding).slice(0, MOST_LOGS);
  if (own.length === 0) return '#   logs: [ "logs/guiding*.csv" ]';
  const isReady = (log: string): boolean => ownFormat.includes(log);
  const selectors = own.map((log) => (isReady(log) ? `{ files: ${scalar(log)} }` : selector(log, logs)));
  const commands = own.filter((log) => !isReady(log)).map((log) => draftCommand(log, logs));
  return `#   logs: [ ${selectors.join(', ')} ]${commands.length === 0 ? '' : `   # ${commands.join('; ')}`}`;
}

/** The command that describes a log. A name that a shell might read otherwise is left for the user to write. */
function draftCommand(log: string, logs: readonly string[]): string {
  const isPlain = /^[\p{L}\p{N}_][\p{L}\p{N} ._/-]*$/u.test(log);
  const [from, to] = isPlain ? [`"${log}"`, `"${dialectOf(log, logs)}"`] : ['LOG', 'dialects/NAME.yaml'];
  return `nightledger dialect draft ${from} --session . --out ${to}`;
}

function selector(log: string, logs: readonly string[]): string {
  return `{ files: ${scalar(log)}, dialect: ${scalar(dialectOf(log, logs))} }`;
}

/** Where a draft for a log is put: by its name, with folder and ending where another log has that name. */
function dialectOf(log: string, logs: readonly string[]): string {
  const isShared = logs.some((other) => other !== log && stemOf(other) === stemOf(log));
  return `dialects/${isShared ? log.replace(/[/.]+/g, '-') : stemOf(log)}.yaml`;
}

function stemOf(log: string): string {
  const name = log.split('/').at(-1) ?? log;
  return name.replace(/(\.gz)?$/i, '').replace(/(?<=.)\.[^.]*$/, '');
}

/** Why a log belongs to a train, as a trailing comment. */
function commentOf(because: string): string {
  return because === '' ? '' : `   # ${because.slice(2)}`;
}

function isOfGuiding(log: string): boolean {
  return /guid/i.test(log.split('/').at(-1) ?? log);
}
