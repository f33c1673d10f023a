/**
 * `nightledger sort SESSION --into DIR`
 */
import { Option, type Command } from 'commander';
import { counted, increment, listed, warningsOf, type Night, type Warning } from '../model/index.js';
import type { NightPlan } from '../sort.js';
import type { Context } from './context.js';
import { checkDate } from './dates.js';
import { UsageError } from './exit-codes.js';
import { safeTree } from './folders.js';
import { nightSource, nightsOf, outputFor } from './nights.js';
import { starsOption, type StarsOption } from './star-measuring.js';
import { untrustedOption } from './untrusted.js';
import { wrapped } from './wrap.js';

interface SortOptions {
  readonly into: string;
  readonly links?: 'hard' | 'symbolic';
  readonly copy?: boolean;
  readonly dryRun?: boolean;
  readonly night?: string;
  readonly rig?: string;
  readonly archive?: string;
  readonly stars: StarsOption;
  readonly untrusted?: boolean;
  readonly quiet?: boolean;
}

const EXAMPLES = `
Examples:
  nightledger sort . --into ~/stacks --dry-run      shows what would be done; writes nothing
  nightledger sort . --into ~/stacks                TARGET/FILTER/TRAIN/ with links to the frames to stack
  nightledger sort . --into /disk/stacks --copy     copies, for another disk
Run it again after an interruption, or with another night: existing files stay as they are.
`;

/** Adds the command. */
export function addSort(program: Command, context: Context): void {
  program
    .command('sort')
    .description(
      'Build a folder for stacking: kept frames by target, filter and train, with matching calibration frames.',
    )
    .argument('<session>', 'folder with the frames and logs of one or more nights')
    .requiredOption('--into <folder>', 'the folder to add to; made when missing')
    .addOption(
      new Option('--links <kind>', 'only this kind of link; default: hard, else symbolic, else a copy')
        .choices(['hard', 'symbolic'])
        .conflicts('copy'),
    )
    .option('--copy', 'copy the files')
    .option('--dry-run', 'show what would be done, and write nothing')
    .option('--night <date>', 'only the night of this evening, YYYY-MM-DD')
    .option('--rig <file>', 'use this rig file instead of the one in the session folder')
    .option('--archive <folder>', 'record in this archive what was sorted')
    .addOption(starsOption())
    .addOption(untrustedOption())
    .option('-q, --quiet', 'print only errors')
    .addHelpText('after', EXAMPLES)
    .action(async (session: string, options: SortOptions) => {
      const messages = context.messages(options);
      checkDate('--night', options.night);
      const source = nightSource(session);
      if (source.kind === 'record') throw new UsageError('sort needs the session folder: a record contains no frames');
      const tree = safeTree(options.into, source.folder);
      const archive = options.archive === undefined ? undefined : outputFor(source, options.archive, '--archive');
      const { ANY_WAY, plansOf, sortNights } = await import('../sort.js');
      const { nights } = await nightsOf(
        source,
        {
          rig: options.rig,
          stars: options.stars,
          untrusted: options.untrusted,
          skip: archive === undefined ? [tree] : [tree, archive],
          replay: null,
        },
        context,
        messages,
      );
      messages.warnings(leadingOut(nights));
      const wanted = nights.filter(({ date }) => options.night === undefined || date === options.night);
      if (wanted.length === 0) throw new Error(`${session} holds no such night: nothing to sort`);
      const plans = plansOf(wanted);
      if (options.dryRun) {
        for (const plan of plans) context.answer(wrapped(planText(plan), context.columns));
        return;
      }
      const sorted = await sortNights(plans, {
        session: source.folder,
        tree,
        archive,
        kinds: options.copy ? ['copy'] : options.links === undefined ? ANY_WAY : [options.links],
        nowMs: context.nowMs,
        onProgress: (done, total) => messages.progress('sorting', done, total),
      });
      for (const { manifest, file, placed, failures } of sorted) {
        for (const failure of failures) messages.fail(failure);
        messages.tell(
          `${manifest.night}: ${counted(manifest.files.length, 'file')} in place, ${placed} of them new; ${file}`,
        );
        for (const one of manifest.lacking) messages.note(`${manifest.night}: ${one}`);
      }
      if (sorted.some(({ failures }) => failures.length > 0))
        throw new Error('not every frame could be sorted; see above');
    });
}

/** Targets of the session's links and dialects; other notices are in the nights' reports. */
function leadingOut(nights: readonly Night[]): Warning[] {
  const warned = nights.flatMap(warningsOf).filter(({ code }) => code === 'link-outside' || code === 'dialect-outside');
  return [...new Map(warned.map((warning) => [warning.message, warning])).values()];
}

/** What would be done, folder by folder. */
function planText({ night, placements, rejected, neverWritten, lacking }: NightPlan): string {
  const folders = new Map<string, number>();
  for (const { folder } of placements) increment(folders, folder);
  const left = [
    ...(rejected.length > 0
      ? [`${counted(rejected.length, 'lost frame')} left where ${rejected.length === 1 ? 'it is' : 'they are'}`]
      : []),
    ...(neverWritten > 0 ? [`${counted(neverWritten, 'exposure')} without a file`] : []),
  ];
  return [
    `${night}: ${counted(placements.length, 'file')} to place${left.length > 0 ? `; ${listed(left)}` : ''}`,
    ...[...folders].sort().map(([folder, count]) => `  ${folder}/  ${counted(count, 'file')}`),
    ...lacking.map((one) => `  ${one}`),
    '',
  ].join('\n');
}
