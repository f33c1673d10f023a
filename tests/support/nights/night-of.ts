/**
 * A simulated night as the program sees it, without a folder: headers, events and samples are handed over as if they had
 * been read, and the program's stages make the night of them. Nothing is judged or added up here.
 */
import { takeAccount } from '../../../src/account/index.js';
import type { Rig } from '../../../src/config/index.js';
import { findAll } from '../../../src/findings/index.js';
import { eveningOf, gatherNight, sessionOf, type Session } from '../../../src/gather/index.js';
import { interval, lineTimesOf } from '../../../src/model/index.js';
import type { GuidingSeries, InputFile, Night, Site, Target, TellingEvent, Warning } from '../../../src/model/index.js';
import { DEFAULT_RULES } from '../../../src/model/index.js';
import { reconstruct } from '../../../src/reconstruct/index.js';
import { nightSpan, skyOver, zoneOf } from '../../../src/sky/index.js';
import type { Scenario } from '../generator/scenario.js';
import { simulate } from '../generator/simulate.js';
import type { GuidingSample, SimulatedFrame, Simulation } from '../generator/simulation.js';
import { framePath } from '../generator/truth.js';
import { calibrationOf, hashOf } from './calibration.js';

/** A scenario, and what of it the program gets to see. */
export interface NamedScenario {
  readonly scenario: Scenario;
  readonly site: Site | null;
  readonly targets: readonly Target[];
  /** Local date of the evening. */
  readonly date: string;
  readonly hasLogs?: boolean;
  readonly hasFrames?: boolean;
  readonly hasCalibration?: boolean;
  readonly warnings?: readonly Warning[];
}

const NOTHING: Simulation = {
  events: [],
  frames: [],
  cycles: [],
  samples: [],
  booked: {},
  strays: [],
  guidingOff: [],
};
const PIXEL_UM = 3.76;

/** Takes a scenario through the stages; its replay and worth are left to whoever asks for them. */
export function nightOf(named: NamedScenario): Night {
  const { date, site, targets } = named;
  const span = nightSpan(date, zoneOf(site));
  const session = sessionFor(named);
  const gathered = gatherNight(session, span);
  const timeline = reconstruct({
    night: span,
    trains: gathered.trains.map((t) => t.id),
    ...eveningOf(session, span),
    targets,
    filterAliases: {},
    clocks: [],
  });
  const sky = skyOver({ span, ...gathered, ...timeline });
  const accounts = takeAccount({ ...gathered, ...timeline, ...sky, stars: null });
  const stars = null;
  const judged = { date, span, gathered, timeline, sky, stars, accounts, pictures: null, worth: null, replay: null };
  return { ...judged, findings: findAll(judged) };
}

function sessionFor({ scenario, hasLogs = true, hasFrames = true, hasCalibration = true, ...named }: NamedScenario) {
  const simulation = hasFrames ? simulate(scenario) : NOTHING;
  const lights = simulation.frames.filter((f) => !f.aborted).map((f) => headerOf(f, scenario));
  const frames = hasCalibration ? [...lights, ...calibrationOf(scenario)] : lights;
  const guiding = hasLogs ? seriesOf(simulation.samples) : null;
  const rig = rigOf(scenario, named.site, named.targets);
  const inputs = frames.map(
    (f): InputFile => ({ file: f.file, role: 'frame', train: f.train, sizeBytes: f.sizeBytes, sha256: f.headerHash }),
  );
  const events = hasLogs ? eventsOf(simulation) : [];
  return sessionOf(
    rig,
    { frames, inputs, warnings: [] },
    {
      events,
      lineTimes: lineTimesOf(events),
      guiding,
      inputs: logInputs(scenario, hasLogs, guiding),
      warnings: named.warnings ?? [],
    },
  ) satisfies Session;
}

function rigOf(scenario: Scenario, site: Site | null, targets: readonly Target[]): Rig {
  return {
    site,
    darkness: 'nautical',
    trains: scenario.trains.map(({ id, role, focalLengthMm, apertureMm }) => ({
      id,
      role,
      focalLengthMm,
      apertureMm,
      pixelSizeUm: PIXEL_UM,
      filterWidthsNm: {},
      filterWavelengthsNm: {},
      frames: [],
      match: {},
      logs: [],
    })),
    guiding: { source: 'off-axis', train: scenario.trains[0]?.id, logs: [] },
    targets: targets.map((target) => ({ ...target, goals: { hours: {}, perTrain: {} } })),
    rules: DEFAULT_RULES,
    keywords: {},
    filterAliases: {},
    origin: 'rig-file',
  };
}

/** What the trains' computers logged. */
export function eventsOf({ events }: Simulation): TellingEvent[] {
  return events.map(
    (event, index): TellingEvent =>
      // The simulation's events are of the vocabulary, which its own type does not say.
      ({ ...event, source: { file: `logs/${event.train}.jsonl`, line: index + 1 } }) as unknown as TellingEvent,
  );
}

export function headerOf(frame: SimulatedFrame, { trains, targets, begin }: Scenario) {
  const train = trains.find(({ id }) => id === frame.train);
  const target = targets.find(({ name }) => name === frame.target);
  const file = framePath(frame);
  const hours = (frame.beginMs - Date.parse(begin)) / 3_600_000;
  return {
    file,
    sizeBytes: 5760,
    headerHash: hashOf(file),
    train: frame.train,
    kind: 'light' as const,
    target: frame.target,
    filter: frame.filter,
    exposure: interval(frame.beginMs, frame.endMs),
    exposureSeconds: (frame.endMs - frame.beginMs) / 1000,
    pointing: target && { raDeg: target.raDeg, decDeg: target.decDeg },
    pierSide: frame.pierSide,
    focalLengthMm: train?.focalLengthMm,
    apertureMm: train?.apertureMm,
    pixelSizeUm: PIXEL_UM,
    gain: 100,
    offset: 50,
    binning: { x: 1, y: 1 },
    setTemperatureC: -10,
    sensorTemperatureC: -10 + ((frame.number % 3) - 1) * 0.1,
    focusPosition: frame.focusPosition,
    focusTemperatureC: frame.temperatureC,
    starSize: { pixels: frame.starSize, measure: 'half-flux' as const },
    starCount: 900 + ((frame.number * 37) % 200),
    backgroundAdu: 640 + Math.round(4 * hours) + ((frame.number * 13) % 20),
  };
}

function seriesOf(samples: readonly GuidingSample[]): GuidingSeries | null {
  if (samples.length === 0) return null;
  return {
    atMs: Float64Array.from(samples, (s) => s.atMs),
    raArcsec: Float64Array.from(samples, (s) => s.ra),
    decArcsec: Float64Array.from(samples, (s) => s.dec),
    snr: new Float64Array(samples.length).fill(28),
    sources: [{ file: 'logs/guiding.csv', line: 2 }],
  };
}

function logInputs({ trains }: Scenario, hasLogs: boolean, guiding: GuidingSeries | null): InputFile[] {
  const file = (name: string, role: InputFile['role'], sizeBytes: number, lines: number): InputFile => ({
    file: name,
    role,
    sizeBytes,
    lines,
    understood: lines,
    sha256: hashOf(name),
  });
  return [
    file('rig.yaml', 'rig-file', 1480, 42),
    ...(hasLogs
      ? trains.map(({ id }) => ({ ...file(`logs/${id}.jsonl`, 'event-log', 182_400, 1204), train: id }))
      : []),
    ...(guiding ? [file('logs/guiding.csv', 'guiding-log', 720_120, guiding.atMs.length + 1)] : []),
  ];
}
