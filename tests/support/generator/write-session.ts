/**
 * A simulated night as a session folder: frames with real headers and tiny pixels, logs, guiding samples, a rig file.
 */
import { writeFits, type CardInput, type ImageInput } from '../fits-writer.js';
import {
  GUIDING_DIALECT,
  guidingTable,
  SENTENCE_DIALECT,
  sentenceLog,
  STATION_DIALECT,
  stationLog,
} from './invented-logs.js';
import type { DrawnTruth, Scenario, ScenarioTarget, ScenarioTrain } from './scenario.js';
import { simulate } from './simulate.js';
import type { SimulatedEvent, SimulatedFrame, Simulation } from './simulation.js';
import { framePath, truthOf, type Truth } from './truth.js';

/** Files by relative path. */
export type SessionFiles = Map<string, Buffer | string>;

export interface WrittenSession {
  readonly files: SessionFiles;
  readonly truth: Truth;
  readonly simulation: Simulation;
}

export interface SessionParts {
  /** Leave out what a capture program would log. */
  readonly logs?: boolean;
  readonly rig?: boolean;
  /** Frames as .fits.gz. */
  readonly gzip?: boolean;
  /** Logs in three invented text formats with their dialects, instead of our own; the companion's clock runs ahead by this. */
  readonly dialects?: { readonly companionAheadMs: number };
  /** Frames whose pixels are drawn where the scenario draws any; all when absent. The others' are 0. */
  readonly paints?: (path: string) => boolean;
}

/** Simulates a scenario and lays it out as files. */
export function writeSession(scenario: Scenario, parts: SessionParts = {}): WrittenSession {
  const simulation = simulate(scenario);
  const files: SessionFiles = new Map();
  const aheadMs = (train: string): number =>
    train === scenario.trains[0]?.id ? 0 : (parts.dialects?.companionAheadMs ?? 0);
  const paint = scenario.painter?.(simulation);
  const drawn: Record<string, DrawnTruth> = {};
  for (const frame of simulation.frames) {
    // An aborted exposure is never saved.
    if (frame.aborted) continue;
    const path = parts.gzip ? `${framePath(frame)}.gz` : framePath(frame);
    const painted = paint?.(frame);
    if (painted) drawn[path] = rounded(painted.truth);
    const pixels = parts.paints?.(path) === false ? undefined : painted?.pixels();
    const image = { width: painted?.width ?? 6, height: painted?.height ?? 4, pixels };
    files.set(path, fitsOf(frame, scenario, aheadMs(frame.train), parts.gzip ?? false, image));
  }
  if (parts.dialects) {
    addInventedLogs(files, scenario, simulation, parts.dialects.companionAheadMs);
  } else if (parts.logs ?? true) {
    for (const { id } of scenario.trains) {
      files.set(`logs/${id}.jsonl`, jsonLines(simulation.events.filter((e) => e.train === id)));
    }
    if (simulation.samples.length > 0) files.set('logs/guiding.csv', guidingCsv(simulation));
  }
  if (parts.rig ?? true)
    files.set(
      'rig.yaml',
      rigYaml(scenario, parts.dialects ? 'dialects' : (parts.logs ?? true) ? 'own' : 'none', parts.gzip ?? false),
    );
  const truth = truthOf(scenario.begin.slice(0, 10), simulation, scenario.trains);
  return { files, truth: paint ? { ...truth, drawn } : truth, simulation };
}

function addInventedLogs(
  files: SessionFiles,
  scenario: Scenario,
  { events, samples }: Simulation,
  aheadMs: number,
): void {
  const zone = scenario.site.timezone;
  const late = (e: SimulatedEvent): SimulatedEvent => ({ ...e, atMs: e.atMs + aheadMs });
  const [pilot, companion] = scenario.trains;
  const own = (id: string | undefined) => events.filter((e) => e.train === id);
  files.set('logs/hut-one.txt', stationLog(own(pilot?.id), zone));
  files.set('logs/hut-two.txt', sentenceLog(own(companion?.id).map(late), own(pilot?.id).map(late), zone));
  files.set('logs/star-walk.csv', guidingTable(samples));
  files.set('dialects/hut-diary.yaml', STATION_DIALECT);
  files.set('dialects/night-watch.yaml', SENTENCE_DIALECT);
  files.set('dialects/star-walk.yaml', GUIDING_DIALECT);
}

function rounded(truth: DrawnTruth): DrawnTruth {
  const three = (value: number): number => Math.round(value * 1000) / 1000;
  return { fwhm: three(truth.fwhm), trail: three(truth.trail), flux: three(truth.flux), sky: three(truth.sky) };
}

function fitsOf(
  frame: SimulatedFrame,
  scenario: Scenario,
  aheadMs: number,
  gzip: boolean,
  image: Pick<ImageInput, 'width' | 'height' | 'pixels'>,
): Buffer {
  const train = scenario.trains.find((t) => t.id === frame.train)!;
  const target = scenario.targets.find((t) => t.name === frame.target)!;
  return writeFits({
    cards: cardsOf(
      { ...frame, beginMs: frame.beginMs + aheadMs, endMs: frame.endMs + aheadMs },
      train,
      target,
      scenario,
    ),
    ...image,
    bitpix: 16,
    gzip,
  });
}

function cardsOf(
  frame: SimulatedFrame,
  train: ScenarioTrain,
  target: ScenarioTarget,
  { site, cards, painter }: Scenario,
): CardInput[] {
  return [
    ['IMAGETYP', 'LIGHT'],
    ['DATE-OBS', new Date(frame.beginMs).toISOString().replace('Z', ''), 'UTC, start of exposure'],
    ['TIMESYS', 'UTC'],
    ['EXPTIME', (frame.endMs - frame.beginMs) / 1000, 's'],
    ['OBJECT', frame.target],
    ['FILTER', frame.filter],
    ['TELESCOP', train.telescope],
    ['INSTRUME', train.camera],
    ['FOCALLEN', train.focalLengthMm, 'mm'],
    ['APTDIA', train.apertureMm, 'mm'],
    ['XPIXSZ', 3.76, 'um'],
    ['XBINNING', 1],
    ['YBINNING', 1],
    ['GAIN', 100],
    ['OFFSET', 50],
    ['SET-TEMP', -10, 'degC'],
    ['CCD-TEMP', -10 + ((frame.number % 3) - 1) * 0.1 + (train.warmerC?.(frame.number) ?? 0), 'degC'],
    ['RA', target.raDeg, 'deg, J2000'],
    ['DEC', target.decDeg, 'deg, J2000'],
    ['FOCUSPOS', frame.focusPosition, 'steps'],
    ['FOCTEMP', frame.temperatureC, 'degC'],
    // Where stars are drawn they speak for themselves.
    ...(painter ? [] : [['STARSIZE', frame.starSize, 'px, half-flux radius'] as const]),
    ['PIERSIDE', frame.pierSide],
    ['SITELAT', site.latitude, 'deg'],
    ['SITELONG', site.longitude, 'deg, east positive'],
    ['SITEELEV', site.elevation, 'm'],
    ['SWCREATE', 'invented by the sample generator'],
    ...(cards?.(frame) ?? []),
  ];
}

function jsonLines(events: readonly SimulatedEvent[]): string {
  return events
    .map(({ atMs, train: _train, event, ...fields }) =>
      JSON.stringify({ at: new Date(atMs).toISOString(), event, ...fields }),
    )
    .map((line) => `${line}\n`)
    .join('');
}

function guidingCsv({ samples }: Simulation): string {
  const rows = samples.map((s) => `${new Date(s.atMs).toISOString()},${s.ra.toFixed(2)},${s.dec.toFixed(2)}`);
  return ['at,ra_arcsec,dec_arcsec', ...rows, ''].join('\n');
}

export function rigYaml(scenario: Scenario, logs: 'own' | 'dialects' | 'none', gzip: boolean): string {
  const { site, camera, darkSky, filterWidthsNm } = scenario;
  const noise = camera
    ? `, readNoise: ${camera.readNoise}, gain: ${camera.gain}, darkCurrent: ${camera.darkCurrent}`
    : '';
  const widths = Object.entries(filterWidthsNm ?? {}).map(([filter, width]) => `${filter}: { width: ${width} }`);
  const trainLogs = (id: string, i: number): string[] =>
    ({
      own: [`    logs: [ { files: "logs/${id}.jsonl" } ]`],
      dialects: [
        `    logs: [ { files: "logs/hut-${['one', 'two'][i]}.txt", dialect: dialects/${['hut-diary', 'night-watch'][i]}.yaml } ]`,
      ],
      none: [],
    })[logs];
  const guiding = {
    own: ['guiding: { source: off-axis, train: heron, logs: [ "logs/guiding.csv" ] }'],
    dialects: [
      'guiding: { source: off-axis, train: heron, logs: [ { files: "logs/star-walk.csv", dialect: dialects/star-walk.yaml } ] }',
    ],
    none: [],
  }[logs];
  return [
    '# Invented: no such observatory, trains or night.',
    `site: { name: "${site.name}", latitude: ${site.latitude}, longitude: ${site.longitude}, elevation: ${site.elevation}, timezone: ${site.timezone}, minimumAltitude: 25 }`,
    'darkness: nautical',
    ...(darkSky === undefined ? [] : [`darkSky: ${darkSky}`]),
    'trains:',
    ...scenario.trains.flatMap((t, i) => [
      `  - id: ${t.id}`,
      `    role: ${t.role}`,
      `    telescope: { focalLength: ${t.focalLengthMm}, aperture: ${t.apertureMm} }`,
      `    camera: { pixelSize: 3.76${noise} }`,
      ...(widths.length > 0 ? [`    filters: { ${widths.join(', ')} }`] : []),
      `    frames: [ "frames/${t.id}/**/*.fits${gzip ? '.gz' : ''}" ]`,
      ...trainLogs(t.id, i),
    ]),
    ...guiding,
    'targets:',
    ...scenario.targets.map(
      (t) =>
        `  - { name: ${t.name}, ra: "${t.ra}", dec: "${t.dec}", goals: ${scenario.goals ?? '{ Ha: 12h, OIII: 12h, SII: 12h }'} }`,
    ),
    '',
  ].join('\n');
}
