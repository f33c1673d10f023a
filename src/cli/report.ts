/**
 * `nightledger report SESSION|NIGHT.json --out DIR`
 */
import { resolve } from 'node:path';
import { Option, type Command } from 'commander';
import { ADDED } from './archive.js';
import type { Context } from './context.js';
import { checkDate } from './dates.js';
import { UsageError } from './exit-codes.js';
import type { Messages } from './messages.js';
import { sweepUp } from './nursery.js';
import { remembering } from './remembering.js';
import { nightWarnings } from './night-warnings.js';
import { holdsRecords, nightSource, nightsOf, outputFor, type NightSource } from './nights.js';
import { starsOption, type StarsOption } from './star-measuring.js';
import { untrustedOption } from './untrusted.js';

interface ReportOptions {
  readonly out: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  readonly edition: 'brief' | 'full';
  readonly utc?: boolean;
  readonly wait?: boolean;
  readonly share?: boolean;
  readonly stars: StarsOption;
  readonly pictures: boolean;
  readonly also?: readonly string[];
  readonly night?: string;
  readonly rig?: string;
  readonly archive?: string;
  readonly untrusted?: boolean;
  readonly force?: boolean;
  readonly quiet?: boolean;
}

/** Exports in addition to the report, as named by `--also`. */
export const EXPORTS = ['summary', 'card', 'frames'] as const;

const EXAMPLES = `
Examples:
  nightledger report ~/nights/2026-10-14 --out ~/reports/2026-10-14
  nightledger report . --out /tmp/report --no-pdf          HTML and JSON only
  nightledger report . --out /tmp/report --edition full    every section and every frame on paper too
  nightledger report . --out /tmp/report --wait --quiet    start it in the evening: ready at breakfast
  nightledger report . --out to-the-club --share           without your site; with a summary, a card and a CSV
  nightledger report . --out /tmp/report --also summary    also a text for a forum
  nightledger report old/night.json --out again            the report made again, without frames or logs
  nightledger report old/night.json --out strict --rig strict.yaml   the same, judged by other rules
  nightledger report . --out /tmp/report --night 2026-10-14   one night of a folder with several
  nightledger report . --out /tmp/report --archive ~/archive   and keep it for nightledger progress
`;

/** Adds the command. */
export function addReport(program: Command, context: Context): void {
  program
    .command('report')
    .description('Read a session folder and write the night report: report.html, report.pdf and night.json.')
    .argument('<session>', 'folder with the frames and logs of one or more nights, or the night.json of a report')
    .requiredOption('-o, --out <folder>', 'folder to write to; made when missing, an existing report is replaced')
    .option('--no-pdf', 'make no PDF')
    .addOption(
      new Option(
        '--edition <which>',
        'edition of the PDF: brief (at most four pages, to send) or full (everything, with a table of contents)',
      )
        .choices(['brief', 'full'])
        .default('brief'),
    )
    .addOption(new Option('--paper <size>', 'paper of the PDF').choices(['a4', 'letter']).default('a4'))
    .addOption(starsOption())
    .option('--no-pictures', 'include no pictures of stars and fields')
    .option('--share', 'leave out everything that reveals your site: coordinates, sky, clock, file names, free text')
    .addOption(
      new Option(
        '--also <what...>',
        'further files: summary (summary.md for a forum or chat), card (card.png, 1200 × 630); both with --share. ' +
          'frames.csv is always written',
      ).choices([...EXPORTS]),
    )
    .option('--utc', 'show UTC next to local time')
    .option('--wait', 'wait until the night is over: Sun up, and no new or growing file for 20 minutes')
    .option('--night <date>', 'report only the night of this evening, YYYY-MM-DD')
    .option(
      '--rig <file>',
      'use this rig file instead of the one in the session folder; with a night.json, judge the night by it',
    )
    .option('--archive <folder>', 'add the night to this archive of many nights; made when missing')
    .addOption(untrustedOption())
    .option('--force', 'replace files in the output folder that nightledger did not make')
    .option('-q, --quiet', 'print only errors')
    .addHelpText('after', EXAMPLES)
    .action(async (session: string, options: ReportOptions) => {
      const messages = context.messages(options);
      const source = nightSource(session);
      const out = outputFor(source, options.out);
      const archive = options.archive === undefined ? undefined : outputFor(source, options.archive, '--archive');
      checkDate('--night', options.night);
      const skip = archive === undefined ? [out] : [out, archive];
      // After a night of waiting the present is another.
      const present = options.wait
        ? { ...context, nowMs: await waitFor(source, { ...options, skip }, context, messages) }
        : context;
      const { writeReports } = await import('../pipeline.js');
      const { nights, warnings } = await nightsOf(
        source,
        {
          rig: options.rig,
          stars: options.stars,
          pictures: options.pictures,
          untrusted: options.untrusted,
          skip,
        },
        present,
        messages,
      );
      context.sweepAway();
      const wanted = options.night === undefined ? nights : nights.filter((n) => n.date === options.night);
      if (wanted.length === 0) {
        messages.warnings(warnings);
        const found = nights.map((n) => n.date).join(', ');
        throw new Error(
          options.night !== undefined && found
            ? `${session} holds no night of ${options.night}; it holds ${found}`
            : `${session} holds no lights and no logged exposures that can be read: nothing to report. ` +
                (holdsRecords(source)
                  ? `It contains night records: \`nightledger progress ${session}\` makes their page, ` +
                    'and `report` with one of the files that night’s'
                  : 'Frames are FITS files; check the globs of the rig file, or run `nightledger init` to see which ' +
                    'cannot be read'),
        );
      }
      const known =
        archive === undefined
          ? undefined
          : await (await import('../archive.js')).earlierNights(archive, remembering(present));
      messages.warnings(known?.warnings ?? []);
      const written = await writeReports(wanted, {
        out,
        pdf: options.pdf,
        paper: options.paper,
        edition: options.edition,
        utc: options.utc,
        force: options.force,
        share: options.share ?? false,
        also: options.also ?? (options.share ? EXPORTS : []),
        nowMs: present.nowMs,
        version: context.version,
        earlier: known?.earlier,
        onProgress: (done, total) => messages.progress('writing reports', done, total),
        onStage: sweepUp,
      });
      messages.warnings([...warnings, ...nightWarnings(wanted)]);
      // With several nights each has its sentence; what to do is in their reports.
      for (const lines of written.said)
        for (const line of lines.slice(0, written.said.length > 1 ? 1 : undefined)) messages.note(line);
      for (const failure of written.failures) messages.fail(failure);
      for (const file of written.files) messages.say(file);
      // Last, so that an archive which cannot be written to does not hide that the report was made.
      if (archive !== undefined) {
        const { addNights } = await import('../archive.js');
        for (const added of await addNights(archive, wanted, {
          session: source.kind === 'session' ? source.folder : source.file,
          reports: written.reports,
          version: context.version,
        })) {
          messages.warnings(added.warnings);
          messages.note(`${added.file} of the archive: ${ADDED[added.state]}`);
        }
      }
    });
}

/** Waits until the night of a session folder is over. @returns UTC ms */
async function waitFor(
  source: NightSource,
  { rig, untrusted, skip }: Pick<ReportOptions, 'rig' | 'untrusted'> & { readonly skip: readonly string[] },
  context: Context,
  messages: Messages,
): Promise<number> {
  if (source.kind !== 'session') throw new UsageError('--wait needs a session folder; the night of a record is over');
  const { lookAtFolder, stateOfNight } = await import('../night-end.js');
  const { nightOver, systemClock } = await import('./wait.js');
  const reading = { skip, untrusted, ...(rig === undefined ? {} : { rigFile: resolve(rig) }) };
  return nightOver({
    clock: context.waitClock ?? systemClock,
    look: () => lookAtFolder(source.folder, reading),
    state: stateOfNight(source.folder, reading),
    onWait: (what) => messages.note(`waiting for ${what}`),
  });
}
