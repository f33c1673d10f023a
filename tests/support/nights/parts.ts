/** What the invented nights are put together of: a place, its targets and trains, and what trains image in turn. */
import type { Site, Target, Warning } from '../../../src/model/index.js';
import { elevationOf } from '../../../src/model/index.js';
import type { PlannedExposures, Scenario, ScenarioTrain } from '../generator/scenario.js';
import { HERON as PILOT, WREN as COMPANION } from '../generator/scenarios.js';
import type { NamedScenario } from './night-of.js';

export const CIERZO_HILL: Site = {
  name: 'Cierzo Hill',
  latitudeDeg: 40.4213,
  longitudeDeg: -1.1187,
  elevationM: 1104,
  timezone: 'Europe/Madrid',
  minimumAltitudeDeg: 25,
  horizon: [],
};

/** J2000 positions of real objects, rounded; from memory. */
export const NGC_281: Target = { name: 'NGC 281', aliases: [], raDeg: 13.246, decDeg: 56.622, origin: 'rig-file' };
export const IC_1396: Target = { name: 'IC 1396', aliases: [], raDeg: 324.75, decDeg: 57.5, origin: 'rig-file' };
export const M_33: Target = { name: 'M 33', aliases: [], raDeg: 23.462, decDeg: 30.66, origin: 'headers' };

export const HERON: ScenarioTrain = { ...PILOT, readoutMs: 2600 };
export const WREN: ScenarioTrain = { ...COMPANION, startOffsetMin: 0, patienceMs: 60_000 };
export const STILT: ScenarioTrain = {
  ...COMPANION,
  id: 'stilt',
  telescope: 'stilt',
  focalLengthMm: 135,
  apertureMm: 67,
  startOffsetMin: 0,
  patienceMs: 30_000,
};

/** What differs between scenarios, without the place. */
export type Happening = Omit<Scenario, 'site' | 'targets'>;

/** Each filter nine frames at a time, in turn. */
export const turnsOf = (target: string, seconds: number, ...filters: string[]): PlannedExposures[] =>
  filters.map((filter) => ({ target, filter, seconds, count: 9 }));

export type Plans = NonNullable<Scenario['turns']>[number]['plans'];

/** The trains with what each images first. */
export const planned = (trains: readonly ScenarioTrain[], plans: Plans): ScenarioTrain[] =>
  trains.map((train) => ({ ...train, plan: plans[train.id] ?? [] }));

const WARNINGS: readonly Warning[] = [
  {
    code: 'truncated-header',
    message:
      'The file ends inside its header after 1,440 bytes; it was left out. Copy it again from the camera computer.',
    source: { file: 'frames/wren/wren_NGC281_L_0042.fits' },
  },
  {
    code: 'unknown-event',
    message: 'The log names an event that is not known here; it was kept as a note.',
    source: { file: 'logs/wren.jsonl', line: 812 },
    count: 3,
  },
];

const scenarioSite = ({ name, latitudeDeg, longitudeDeg, elevationM, timezone }: Site): Scenario['site'] => ({
  name,
  latitude: latitudeDeg,
  longitude: longitudeDeg,
  elevation: elevationOf({ elevationM }),
  timezone,
});
const scenarioTargets = (targets: readonly Target[]): Scenario['targets'] =>
  targets.map(({ name, raDeg, decDeg }) => ({ name, raDeg, decDeg, ra: '', dec: '' }));

/** Puts a named night together from what differs between them. */
export function night(
  scenario: Happening,
  {
    site = CIERZO_HILL,
    targets,
    date = '2026-10-19',
    ...seen
  }: Partial<NamedScenario> & Pick<NamedScenario, 'targets'>,
): NamedScenario {
  const whole = { ...scenario, site: scenarioSite(site ?? CIERZO_HILL), targets: scenarioTargets(targets) };
  return { scenario: whole, site, targets, date, warnings: WARNINGS, ...seen };
}

/** Short subs on every train. */
export const subsOf = (scenario: Happening, seconds: number, ditherEvery: number) => ({
  ...scenario,
  ditherEvery,
  trains: scenario.trains.map((train) => ({ ...train, plan: train.plan.map((one) => ({ ...one, seconds })) })),
  turns: (scenario.turns ?? []).map(({ at, plans }) => ({
    at,
    plans: Object.fromEntries(Object.entries(plans).map(([id, p]) => [id, p.map((one) => ({ ...one, seconds }))])),
  })),
});
