/** The plan as a page, as JSON and as text. */
import { madeText } from '../made.js';
import type { Plan } from '../../model/index.js';
import { renderView } from '../html/render.js';
import { dateText } from '../progress/dates.js';
import { planView } from './view.js';
import { summaryOf, zoneText } from './wording.js';

export { PLAN_SCHEMA, toPlanJson } from './json.js';
export { planText } from './text.js';

export interface PlanPageOptions {
  /** The present, UTC ms, for the colophon. */
  readonly nowMs: number;
  readonly version: string;
}

/** Renders a plan as one self-contained HTML file. */
export function renderPlan(plan: Plan, { nowMs, version }: PlanPageOptions): string {
  const title = `Plan for ${dateText(plan.from)}`;
  const place = plan.site ?? '';
  const view = {
    title,
    place,
    times: zoneText(plan),
    summary: summaryOf(plan),
    head: { id: 'plan', title: 'This night, and those after it', number: '1' },
    plan: planView(plan),
    made: madeText(version, nowMs),
    shared: plan.zone === null,
  };
  return renderView(view, { template: 'plan.hbs', styles: ['progress.css'], title, place });
}
