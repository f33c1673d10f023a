/** An archive's plan into text, JSON and pages. */
import { archivedNights, readGoals, siteKeyOf } from './archive-nights.js';
import { parseRig } from './config/index.js';
import { lookAhead } from './look-ahead.js';
import type { Plan, Progress, Warning } from './model/index.js';
import type { Written } from './output.js';
import type { Remembering } from './record/index.js';
import { planAhead } from './plan-ahead.js';
import { sharePlan } from './plan/index.js';
import { progressOf } from './progress/index.js';
import { shareNights } from './share-nights.js';
import { dayOf, Edition, planText, renderPlan, toPlanJson } from './report/index.js';

export interface MakePlanOptions {
  /** First evening, `YYYY-MM-DD`; without it the evening to come. */
  readonly from?: string;
  readonly nights: number;
  /** Leave out the site and times of day. */
  readonly share: boolean;
  readonly aperturesMm?: ReadonlyMap<string, number>;
  /** Trains to plan; without them those of the latest night. */
  readonly trains?: readonly string[];
  /** The rig file whose trains are planned. */
  readonly rig?: { readonly name: string; readonly text: string };
  readonly nowMs: number;
  /** Where the sums of records are kept between runs. */
  readonly remembering?: Remembering;
}

/**
 * Plans the coming nights of an archive.
 *
 * @throws ConfigError when the goals file or the rig file cannot be used; Error when the archive holds no nights, or
 *   none with a site
 */
export async function makePlan(
  archive: string,
  options: MakePlanOptions,
): Promise<{ readonly plan: Plan; readonly warnings: readonly Warning[] }> {
  const given = options.rig && parseRig(options.rig.name, options.rig.text);
  const { nights, warnings } = await archivedNights(archive, {}, options.remembering);
  if (nights.length === 0)
    throw new Error(`${archive} holds no night records; add some with \`nightledger report SESSION --archive\``);
  const goals = readGoals(archive);
  const { nights: shown, siteKey } = options.share ? shareNights(nights) : { nights, siteKey: siteKeyOf(nights) };
  const progress = progressOf(shown, goals.book, siteKey);
  const outlook = lookAhead(progress, goals.book, siteKey, options);
  const plan = planAhead(progress, outlook, goals.book, siteKey, { ...options, rig: given?.rig });
  if (plan === null)
    throw new Error('no record of the archive names a site: name it in the rig file and report a night again');
  return {
    plan: options.share ? sharePlan(plan) : plan,
    warnings: [...(given?.warnings ?? []), ...warnings, ...goals.warnings, ...withoutGoals(progress)],
  };
}

/**
 * Without any goal nothing is missing: stated explicitly, so that the empty plan is not mistaken for a goal reached.
 */
function withoutGoals({ targets }: Progress): Warning[] {
  if (targets.some(({ goalMs }) => goalMs !== null)) return [];
  const message =
    'no target of the archive has a goal, so there is nothing to plan: write goals.yaml in the archive ' +
    '(docs/archive.md), or goals: { Ha: 12h } to the target in the rig file and report a night again';
  return [{ code: 'no-goals', message }];
}

/** The plan as JSON text or in words. */
export function planAs(plan: Plan, as: 'text' | 'json', version: string): string {
  return as === 'text' ? planText(plan) : `${JSON.stringify(toPlanJson(plan, { version }), null, 1)}\n`;
}

export interface WritePlanOptions {
  readonly out: string;
  readonly pdf: boolean;
  readonly paper: 'a4' | 'letter';
  readonly force?: boolean;
  readonly nowMs: number;
  readonly version: string;
}

/** Writes plan.html, plan.pdf, plan.json and plan.txt. @throws OutputRefused when the folder holds files of others */
export async function writePlan(plan: Plan, options: WritePlanOptions): Promise<Written> {
  // A shared plan has no zone.
  const writtenMs = plan.zone === null ? dayOf(options.nowMs) : undefined;
  const html = renderPlan(plan, { ...options, nowMs: writtenMs ?? options.nowMs });
  const { out, force } = options;
  const edition = await Edition.open(out, { kind: 'plan', of: plan.from, force, writtenMs });
  try {
    edition.claim(['plan.html', 'plan.json', 'plan.txt', ...(options.pdf ? ['plan.pdf'] : [])]);
    await edition.add('plan.html', html);
    await edition.add('plan.json', planAs(plan, 'json', options.version));
    await edition.add('plan.txt', planAs(plan, 'text', options.version));
    const failures: string[] = [];
    if (options.pdf) {
      const { printPdfs } = await import('./report/pdf/index.js');
      const printed = await printPdfs([{ html: () => html, name: 'plan.pdf' }], { paper: options.paper });
      for (const { name, pdf } of printed.pdfs) await edition.add(name, pdf);
      failures.push(...printed.failures);
    }
    return { files: await edition.commit(), failures };
  } catch (error) {
    edition.discard();
    throw error;
  }
}
