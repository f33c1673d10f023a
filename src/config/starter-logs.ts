/**
 * The lines of a starter rig file that name logs: whose they look like, how to describe them, what to write.
 */
import { scalar } from './starter-scalar.js';
import type { TrainConfig } from './types.js';

/** What was found of logs in the session folder. */
export interface FoundLogs {
  /** Log-like files, by their paths in the session folder. */
  readonly logs: readonly string[];
  /** The user's dialects that fit, by paths of logs. */
  readonly dialects: Readonly<Record<string, string>>;
}

/** More logs than this are not listed. */
const MOST_LOGS = 6;
const EXAMPLE = '# logs: [ { files: "logs/*.jsonl" } ]   # or { files: "…", dialect: "…" } for another program\'s log';

/** The lines of one train: logs that bear its name, or else all that bear no other train's. */
export function trainLogLines(train: TrainConfig, trains: readonly TrainConfig[], found: FoundLogs): string[] {
  const logs = ownLogs(train, trains, found.logs);
  const fitting = Object.entries(found.dialects);
  if (fitting.length > 0) {
    const own = fitting.filter(([log]) => trains.length === 1 || bears(log, train));
    if (own.length === 0)
      return fitting.map(
        ([log, dialect]) =>
          `    # logs: [ { files: ${scalar(log)}, dialect: ${scalar(dialect)} } ]   # fits; is it this train's?`,
      );
    return [
      '    logs:',
      ...own.map(
        ([log, dialect]) => `      - { files: ${scalar(log)}, dialect: ${scalar(dialect)} }   # your dialect fits`,
      ),
    ];
  }
  if (logs.length === 0) return [`    ${EXAMPLE}`];
  return [
    '    # Found in this folder. Leave what is this train’s, draft a dialect of each, and remove the # of the last ' +
      'lines;',
    '    # a log in nightledger’s own format needs no dialect.',
    ...logs.slice(0, MOST_LOGS).map((log) => `    #   ${draftCommand(log)}`),
    '    # logs:',
    ...logs.slice(0, MOST_LOGS).map((log) => `    #   - ${selector(log)}`),
  ];
}

/** The logs of the guiding section: those that are called so. */
export function guidingLogLine({ logs }: FoundLogs): string {
  const own = logs.filter(isOfGuiding).slice(0, MOST_LOGS);
  return own.length === 0
    ? '#   logs: [ "logs/guiding*.csv" ]'
    : `#   logs: [ ${own.map(selector).join(', ')} ]   # ${own.map(draftCommand).join('; ')}`;
}

/** The command that describes a log. A name that a shell might read otherwise is left for the user to write. */
function draftCommand(log: string): string {
  const isPlain = /^[\p{L}\p{N}_][\p{L}\p{N} ._/-]*$/u.test(log);
  const [from, to] = isPlain ? [`"${log}"`, `"${dialectOf(log)}"`] : ['LOG', 'dialects/NAME.yaml'];
  return `nightledger dialect draft ${from} --session . --out ${to}`;
}

function selector(log: string): string {
  return `{ files: ${scalar(log)}, dialect: ${scalar(dialectOf(log))} }`;
}

/** Where a draft for a log is put. */
function dialectOf(log: string): string {
  const name = log.split('/').at(-1) ?? log;
  return `dialects/${name.replace(/(\.gz)?$/i, '').replace(/(?<=.)\.[^.]*$/, '')}.yaml`;
}

function ownLogs(train: TrainConfig, trains: readonly TrainConfig[], all: readonly string[]): string[] {
  const logs = all.filter((log) => !isOfGuiding(log));
  const own = logs.filter((log) => bears(log, train));
  return own.length > 0 ? own : logs.filter((log) => !trains.some((other) => bears(log, other)));
}

function bears(log: string, { id }: TrainConfig): boolean {
  return log.toLowerCase().includes(id.toLowerCase());
}

function isOfGuiding(log: string): boolean {
  return /guid/i.test(log.split('/').at(-1) ?? log);
}
