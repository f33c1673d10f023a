/**
 * `nightledger progress ARCHIVE --out DIR`
 */
import { resolve } from 'node:path';
import { Option, type Command } from 'commander';
import { COUNTINGS, type Counting } from '../model/index.js';
import { archiveFolder } from './archive-folder.js';
import { checkDate } from './dates.js';
import type { Context } from './context.js';
import { UsageError } from './exit-codes.js';
import { safeOutputFolder } from './folders.js';
import { remembering } from './remembering.js';

interface ProgressOptions {
  readonly out: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  readonly share?: boolean;
  readonly count?: Counting;
  readonly from?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
}

const EXAMPLES = `
Examples:
  nightledger progress ~/archive --out ~/reports/progress
  nightledger progress ~/archive --out /tmp/progress --no-pdf           HTML and JSON only
  nightledger progress ~/archive --out /tmp/progress --from 2027-03-01  the outlook from that evening on
Goals belong in goals.yaml in the archive, or in the rig files of the nights.
`;

/** Adds the command. */
export function addProgress(program: Command, context: Context): void {
  program
    .command('progress')
    .description(
      'Read an archive of nights and show how far its targets have come: progress.html, ' +
        'progress.pdf and progress.json.',
    )
    .argument('<archive>', 'folder of night records, made by report --archive and archive add')
    .requiredOption('-o, --out <folder>', 'folder to write to; made when missing, an existing page is replaced')
    .option('--no-pdf', 'make no PDF')
    .addOption(new Option('--paper <size>', 'paper of the PDF').choices(['a4', 'letter']).default('a4'))
    .option('--share', 'leave out the site and the links to night reports')
    .addOption(
      new Option(
        '--count <how>',
        'count kept time and goals in clock time, or as effective hours: the time under a dark, clear ' +
          'zenith sky worth the same',
      )
        .choices([...COUNTINGS])
        .default('clock'),
    )
    .option('--from <date>', 'look ahead from this evening, YYYY-MM-DD, instead of tonight')
    .option('--force', 'replace files in the output folder that nightledger did not make')
    .option('-q, --quiet', 'print only errors')
    .addHelpText('after', EXAMPLES)
    .action(async (path: string, options: ProgressOptions) => {
      const messages = context.messages(options);
      if (options.share && options.count === 'effective')
        throw new UsageError(
          '--count effective reveals altitudes and moonlight, and through them the site: leave it out ' +
            'with --share',
        );
      const archive = archiveFolder(path);
      const out = resolve(options.out) === archive ? archive : safeOutputFolder(options.out, archive);
      checkDate('--from', options.from);
      const { startDrawing, writeProgress } = await import('../archive.js');
      startDrawing();
      const written = await writeProgress(archive, {
        out,
        pdf: options.pdf,
        paper: options.paper,
        force: options.force,
        share: options.share ?? false,
        counting: options.count,
        from: options.from,
        nowMs: context.nowMs,
        version: context.version,
        remembering: remembering(context),
        onProgress: (what, done, total) =>
          messages.progress(what === 'records' ? 'reading records' : 'writing pages', done, total),
      });
      messages.warnings(written.warnings);
      for (const failure of written.failures) messages.fail(failure);
      for (const file of written.files) messages.say(file);
    });
}
