/**
 * `nightledger dialect draft LOG` and `nightledger dialect check LOG`
 */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Command } from 'commander';
import type { Context } from './context.js';
import { untrustedOption } from './untrusted.js';
import { checkDate } from './dates.js';
import { UsageError } from './exit-codes.js';
import { wrapped } from './wrap.js';
import { MAX_CONFIG_BYTES, readTextFile } from '../files/read-text.js';
import { writeAtomically } from '../files/write-atomically.js';
import { writeNewFile } from '../files/write-new.js';

interface DraftOptions {
  readonly out?: string;
  readonly ask?: boolean;
  readonly session?: string;
  readonly zone?: string;
  readonly untrusted?: boolean;
  readonly quiet?: boolean;
}

interface CheckOptions {
  readonly dialect?: string;
  readonly train?: string;
  readonly zone?: string;
  readonly date?: string;
  readonly session?: string;
  readonly untrusted?: boolean;
  readonly json?: boolean;
  readonly events?: boolean;
}

const EXAMPLES = `
Examples:
  nightledger dialect draft logs/hut-one.txt                              prints a starter dialect
  nightledger dialect draft logs/hut-one.txt --out dialects/hut-one.yaml  writes it, never over an existing file
  nightledger dialect draft logs/hut-one.txt --ask --out dialects/hut-one.yaml   asks about undecided lines
  nightledger dialect check logs/hut-one.txt --dialect dialects/hut-one.yaml
  nightledger dialect check logs/hut-one.txt                              with the dialect that the rig file names
`;

/** Asks about the lines that a draft leaves over; a file from a walk before is gone on with. */
async function walk(log: string, file: string): Promise<void> {
  const [{ askFor }, { askInTerminal }] = await Promise.all([import('../log-doctor.js'), import('./ask.js')]);
  const earlier = existsSync(file) ? readTextFile(file, { maxBytes: MAX_CONFIG_BYTES }) : null;
  const save = (yaml: string): Promise<void> => writeAtomically(file, yaml);
  await save(await askFor(log, earlier, askInTerminal, save));
}

/** Adds both commands. */
export function addDialect(program: Command, context: Context): void {
  const dialect = program
    .command('dialect')
    .description('Describe another program’s log: draft a dialect, and check what it reads.')
    .addHelpText('after', EXAMPLES);
  dialect
    .command('draft')
    .description('Examine an unknown log and write a commented dialect for it.')
    .argument('<log>', 'a text or CSV log, gzipped or not')
    .option('-o, --out <file>', 'write it to this file instead of printing it')
    .option('--ask', 'ask about undecided lines, one kind after another; needs --out, and continues where it stopped')
    .option('--session <folder>', 'compare the log with the frames of this session folder')
    .option('--zone <name>', 'time zone of the site, if no rig file above the log states it')
    .addOption(untrustedOption())
    .option('-q, --quiet', 'print only the dialect and errors')
    .action(async (log: string, options: DraftOptions) => {
      const messages = context.messages(options);
      if (options.ask) {
        if (options.out === undefined) throw new UsageError('--ask needs --out FILE: every answer is saved there');
        await walk(log, resolve(options.out));
        messages.say(options.out);
        return;
      }
      const { draftFor } = await import('../log-doctor.js');
      const draft = await draftFor(log, {
        session: options.session,
        zone: options.zone,
        untrusted: options.untrusted,
        nowMs: context.nowMs,
      });
      messages.warnings(draft.warnings);
      for (const line of draft.summary) messages.note(line);
      if (draft.yaml === null) return;
      if (options.out === undefined) {
        context.answer(draft.yaml);
        return;
      }
      // Fails rather than overwrite.
      writeNewFile(resolve(options.out), draft.yaml);
      messages.say(options.out);
    });
  dialect
    .command('check')
    .description('Read a log with a dialect and report what became of every line.')
    .argument('<log>', 'the log')
    .option('-d, --dialect <file>', 'the dialect; default: the one that the rig file names for this log, else a draft')
    .option('--train <id>', 'the train whose log it is')
    .option('--zone <name>', 'time zone of the site, if no rig file above the log states it')
    .option('--date <date>', 'the evening, YYYY-MM-DD, for logs that print no date')
    .option('--session <folder>', 'compare the log with the frames of this session folder')
    .addOption(untrustedOption())
    .option('--json', 'print events, guiding and coverage as JSON')
    .option('--events', 'print the log as an event log, one JSON object per line')
    .action(async (log: string, options: CheckOptions) => {
      if (options.json && options.events) throw new UsageError('--json and --events exclude each other');
      checkDate('--date', options.date);
      const { checkLog } = await import('../log-doctor.js');
      const checked = await checkLog(log, { ...options, nowMs: context.nowMs, columns: context.columns });
      if (options.json) context.answer(`${JSON.stringify(checked.json, null, 2)}\n`);
      else if (options.events) context.answer(checked.eventLog);
      else context.answer(wrapped(checked.text, context.columns));
    });
}
