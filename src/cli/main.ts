/**
 * The command line: commands, help, and error handling. Commands are loaded when called, so that `--help` answers at
 * once.
 */
import { Command, CommanderError } from 'commander';
import { addArchive } from './archive.js';
import { addDialect } from './dialect.js';
import { addInit } from './init.js';
import { addPlan } from './plan.js';
import { addProgress } from './progress.js';
import { addReplay } from './replay.js';
import { addReport } from './report.js';
import { addSort } from './sort.js';
import type { Context, Surroundings } from './context.js';
import { EXIT, UsageError, type ExitCode } from './exit-codes.js';
import { printable } from '../model/index.js';
import { Messages, widthOf } from './messages.js';

export { setEngine, underNodesFlags } from './engine.js';
import { sweepAway } from './nursery.js';
import { programVersion } from './version.js';

const FIRST_STEPS = `
First steps:
  nightledger report ~/nights/2026-10-14 --out ~/reports/2026-10-14   a report from frames alone
  nightledger init ~/nights/2026-10-14                                a rig file to edit: site, trains, logs, goals
  nightledger dialect draft LOG --out FILE                            a dialect for a log, to name in the rig file
"nightledger COMMAND --help" explains each command.
`;

/**
 * Runs one command line: the whole program, as a function.
 *
 * @param args arguments without the program's name
 * @param surroundings streams, environment and clock; the process's own when absent
 * @returns the exit code
 */
export async function run(args: readonly string[], surroundings: Surroundings = thisProcess()): Promise<ExitCode> {
  const { stdout, stderr, nowMs, env, waitClock } = surroundings;
  const columns = widthOf(stdout);
  const context: Context = {
    messages: ({ quiet }) => new Messages(quiet ?? false, stdout, stderr),
    // Line breaks of an answer are kept; other terminal control characters are not.
    answer: (text) => void stdout.write(text.split('\n').map(printable).join('\n')),
    ...(columns === undefined ? {} : { columns }),
    nowMs,
    ...(waitClock === undefined ? {} : { waitClock }),
    env,
    onInterrupt: surroundings.onInterrupt ?? (() => () => {}),
    sweepAway: surroundings.sweepAway ?? (() => {}),
    version: programVersion(),
  };
  const program = new Command('nightledger')
    .description(
      'Reports what a night of deep-sky imaging with two trains on one mount was worth, and where every second went.',
    )
    .version(context.version)
    .addHelpText('after', FIRST_STEPS)
    .configureOutput({
      writeOut: (text) => void stdout.write(text),
      writeErr: (text) => void stderr.write(text.split('\n').map(printable).join('\n')),
    })
    .exitOverride();
  addReport(program, context);
  addReplay(program, context);
  addSort(program, context);
  addInit(program, context);
  addDialect(program, context);
  addArchive(program, context);
  addProgress(program, context);
  addPlan(program, context);
  throwInsteadOfExiting(program);
  program.hook('preAction', (_, command) => refuseEmpty(command));
  try {
    await program.parseAsync([...args], { from: 'user' });
    return EXIT.made;
  } catch (error) {
    return explain(error, surroundings);
  }
}

/** The process as a run finds it; the only place that reads the clock. */
function thisProcess(): Surroundings {
  return {
    stdout: process.stdout,
    stderr: process.stderr,
    env: process.env,
    nowMs: Date.now(),
    onInterrupt: (onSignal) => {
      process.once('SIGINT', onSignal);
      return () => process.off('SIGINT', onSignal);
    },
    sweepAway,
  };
}

interface SystemError extends Error {
  readonly code: string;
  readonly path: string;
}

function isSystemError(error: unknown): error is SystemError {
  return (
    error instanceof Error &&
    'code' in error &&
    typeof error.code === 'string' &&
    'path' in error &&
    typeof error.path === 'string'
  );
}

/** The reason of a file system error, in words. */
function systemMessage({ code, path, message }: SystemError): string {
  switch (code) {
    case 'ENOENT':
      return `there is no ${path}`;
    case 'EEXIST':
      return `${path} already exists and was left unchanged; name another file`;
    case 'EACCES':
    case 'EPERM':
      return `${path} may not be read or written; check its permissions`;
    case 'EISDIR':
      return `${path} is a folder; name a file`;
    case 'ENOSPC':
    case 'EDQUOT':
      return (
        `the disk is full, or your quota is used up: ${path} could not be written. Make room or name ` +
        'another disk; existing files are unchanged'
      );
    case 'EROFS':
      return `${path} is on a read-only disk; name a folder on another`;
    case 'ENOTDIR':
      return `${path} leads through a file as if it were a folder; check the path`;
    case 'ELOOP':
      return `${path} leads through links that form a loop; fix the links or name another path`;
    case 'ENAMETOOLONG':
      return `a name in ${path} is too long for this disk; shorten it`;
    case 'EMFILE':
    case 'ENFILE':
      return `too many files are open to open ${path}; close other programs and try again`;
    case 'EIO':
      return `the disk reports an error at ${path}; check the disk, or its network`;
    default:
      return `${path}: ${message}`;
  }
}

/** Errors of the command line reach `explain` from commands within commands too, and name the help of the one meant. */
function throwInsteadOfExiting(command: Command, name = command.name()): void {
  command.exitOverride().showHelpAfterError(`(${name} --help shows how it is used)`);
  for (const inner of command.commands) throwInsteadOfExiting(inner, `${name} ${inner.name()}`);
}

/**
 * An empty text is an unset shell variable: as a path it would be the current folder.
 *
 * @throws UsageError when an argument or an option's value is empty
 */
function refuseEmpty(command: Command): void {
  const isEmpty = (value: unknown): boolean =>
    value === '' || (Array.isArray(value) && value.some((one) => one === ''));
  const option = command.options.find((one) => isEmpty(command.getOptionValue(one.attributeName())));
  const empty = option?.long ?? command.registeredArguments.find((_, i) => isEmpty(command.processedArgs[i]))?.name();
  if (empty !== undefined) throw new UsageError(`${empty} is empty; give a value, or look for an unset variable`);
}

function explain(error: unknown, { stdout, stderr, env }: Surroundings): ExitCode {
  const messages = new Messages(false, stdout, stderr);
  // Commander has printed its own message already.
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.made : EXIT.usage;
  if (error instanceof UsageError) {
    messages.fail(error.message);
    for (const line of error.more) stderr.write(`${printable(line)}\n`);
    return EXIT.usage;
  }
  if (isSystemError(error)) {
    messages.fail(systemMessage(error));
    return EXIT.failed;
  }
  if (error instanceof Error) {
    for (const line of error.message.split('\n')) messages.fail(line);
    if (env.NIGHTLEDGER_DEBUG && error.stack) messages.fail(error.stack);
  } else {
    messages.fail(String(error));
  }
  return EXIT.failed;
}
