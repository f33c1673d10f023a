/**
 * The command line: commands, help, and what becomes of errors. Commands are loaded when called, so that `--help`
 * answers at once.
 */
import { Command, CommanderError } from 'commander';
import { addInit } from './init.js';
import { addReport } from './report.js';
import type { Context } from './context.js';
import { EXIT, UsageError, type ExitCode } from './exit-codes.js';
import { Messages } from './messages.js';
import { programVersion } from './version.js';

/**
 * Runs one command line.
 *
 * @param args arguments without the program's name
 * @returns the exit code
 */
export async function run(args: readonly string[]): Promise<ExitCode> {
  const context: Context = {
    messages: ({ quiet }) => new Messages(quiet ?? false),
    nowMs: Date.now(),
    version: programVersion(),
  };
  const program = new Command('nightledger')
    .description('Says what a night with two imaging trains on one mount was worth, and where every second went.')
    .version(context.version)
    .showHelpAfterError('(nightledger --help shows how it is used)')
    .exitOverride();
  addReport(program, context);
  addInit(program, context);
  for (const command of program.commands) command.exitOverride();
  try {
    await program.parseAsync([...args], { from: 'user' });
    return EXIT.made;
  } catch (error) {
    return explain(error);
  }
}

function explain(error: unknown): ExitCode {
  const messages = new Messages(false);
  // Commander has printed its own message already.
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.made : EXIT.usage;
  if (error instanceof UsageError) {
    messages.fail(error.message);
    return EXIT.usage;
  }
  if (error instanceof Error) {
    for (const line of error.message.split('\n')) messages.fail(line);
    if (process.env['NIGHTLEDGER_DEBUG'] && error.stack) messages.fail(error.stack);
  } else {
    messages.fail(String(error));
  }
  return EXIT.failed;
}
