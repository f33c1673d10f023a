/**
 * `nightledger plan ARCHIVE [--night DATE] [--nights 14]`
 */
import { resolve } from 'node:path';
import { Option, type Command } from 'commander';
import { archiveFolder } from './archive-folder.js';
import { checkDate } from './dates.js';
import type { Context } from './context.js';
import { UsageError } from './exit-codes.js';
import { safeOutputFolder } from './folders.js';
import { readRig } from './read-rig.js';
import { remembering } from './remembering.js';
import { wrapped } from './wrap.js';

interface PlanCommandOptions {
  readonly night?: string;
  readonly nights: string;
  readonly aperture?: readonly string[];
  readonly trains?: readonly string[];
  readonly rig?: string;
  readonly json?: boolean;
  readonly out?: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  readonly share?: boolean;
  readonly force?: boolean;
  readonly quiet?: boolean;
}

/** Maximum number of nights planned: beyond, weather makes a plan useless. */
const MOST_NIGHTS = 60;

const EXAMPLES = `
Examples:
  nightledger plan ~/archive                              tonight, and thirteen nights after it, as text
  nightledger plan ~/archive --night 2026-12-01 --nights 1
  nightledger plan ~/archive --out ~/reports/plan         plan.html, plan.pdf, plan.json and plan.txt
  nightledger plan ~/archive --aperture heron=80 wren=100
  nightledger plan ~/archive --rig rig.yaml               the trains of this rig file, new ones among them
The plan is to be entered by hand. Goals, priorities and mosaics belong in goals.yaml in the archive (docs/plan.md).
`;

/** Adds the command. */
export function addPlan(program: Command, context: Context): void {
  program
    .command('plan')
    .description('Plan what each train should take on the coming nights: targets, filters, subs, dithers, focus, flip.')
    .argument('<archive>', 'folder of night records, made by report --archive and archive add')
    .option('--night <date>', 'plan from this evening, YYYY-MM-DD, instead of tonight')
    .option('--nights <count>', `nights to plan, 1 to ${MOST_NIGHTS}`, '14')
    .option('--aperture <train=mm...>', 'free apertures, if the records do not have them; a larger one counts more')
    .option('--trains <train...>', 'plan these trains instead of those of the latest night')
    .addOption(
      new Option(
        '--rig <file>',
        'plan the trains of this rig file; new ones by their aperture, scale and filters',
      ).conflicts('trains'),
    )
    .option('--json', 'print JSON instead of text')
    .option('-o, --out <folder>', 'write page, PDF, JSON and text to this folder instead of printing the plan')
    .option('--no-pdf', 'make no PDF')
    .addOption(new Option('--paper <size>', 'paper of the PDF').choices(['a4', 'letter']).default('a4'))
    .option('--share', 'leave out the site, altitudes and times of day')
    .option('--force', 'replace files in the output folder that nightledger did not make')
    .option('-q, --quiet', 'print only errors')
    .addHelpText('after', EXAMPLES)
    .action(async (path: string, options: PlanCommandOptions) => {
      const messages = context.messages(options);
      const archive = archiveFolder(path);
      checkDate('--night', options.night);
      const out = options.out === undefined ? null : outputFolder(options.out, archive);
      const { makePlan, planAs, writePlan } = await import('../write-plan.js');
      const { plan, warnings } = await makePlan(archive, {
        from: options.night,
        nights: nightsOf(options.nights),
        share: options.share ?? false,
        aperturesMm: aperturesOf(options.aperture ?? []),
        trains: options.trains,
        rig: options.rig === undefined ? undefined : readRig(options.rig),
        nowMs: context.nowMs,
        remembering: remembering(context),
      });
      messages.warnings(warnings);
      if (out === null) {
        if (options.json === true) context.answer(planAs(plan, 'json', context.version));
        else context.answer(wrapped(planAs(plan, 'text', context.version), context.columns));
        return;
      }
      const { pdf, paper, force } = options;
      const written = await writePlan(plan, { out, pdf, paper, force, nowMs: context.nowMs, version: context.version });
      for (const failure of written.failures) messages.fail(failure);
      for (const file of written.files) messages.say(file);
    });
}

/** The archive itself may hold its progress, so a plan next to it is refused. */
function outputFolder(path: string, archive: string): string {
  if (resolve(path) === archive) throw new UsageError('--out must be another folder than the archive');
  return safeOutputFolder(path, archive);
}

function nightsOf(text: string): number {
  const nights = Number(text);
  if (!Number.isInteger(nights) || nights < 1 || nights > MOST_NIGHTS)
    throw new UsageError(`--nights needs a whole number from 1 to ${MOST_NIGHTS}, got "${text}"`);
  return nights;
}

function aperturesOf(pairs: readonly string[]): ReadonlyMap<string, number> {
  return new Map(
    pairs.map((pair) => {
      const [, train, mm] = /^(.+)=(\d+(?:\.\d+)?)$/.exec(pair) ?? [];
      if (train === undefined || !(Number(mm) > 0))
        throw new UsageError(`--aperture needs a train and millimetres, such as heron=80, got "${pair}"`);
      return [train, Number(mm)] as const;
    }),
  );
}
