/**
 * The starter rig file: what the frames state, with comments on what to check.
 */
import { DARKNESS_KINDS, DEFAULT_DARKNESS, RULE_NAMES, RULES, ownValue, separationDeg } from '../model/index.js';
import { filterLines } from './starter-filters.js';
import { guidingLogLine, trainLogLines, type FoundLogs } from './starter-logs.js';
import { scalar } from './starter-scalar.js';
import type { Rig, TargetConfig, TrainConfig } from './types.js';

/** What the frames showed about each train, for the comments. */
export interface StarterFacts extends FoundLogs {
  readonly frames: Readonly<Record<string, number>>;
  readonly filters: Readonly<Record<string, readonly string[]>>;
  /** Imaged targets without coordinates. */
  readonly unplaced: readonly string[];
}

/** Column of the rules' comments. */
const RULE_WIDTH = 32;

/** Writes a commented rig file; it loads as it is. */
export function starterYaml(rig: Rig, facts: StarterFacts): string {
  return [
    '# Rig file of nightledger: site, trains and targets of this session folder.',
    "# Made from the frames' headers. Check it, and add what they do not contain. All keys: docs/rig-file.md",
    '',
    ...siteLines(rig),
    '',
    `${`darkness: ${DEFAULT_DARKNESS}`.padEnd(26)}# ${DARKNESS_KINDS.join(' | ')}: the twilight that bounds the ledger`,
    '# darkSky: 21.3           # moonless sky at the zenith, magnitudes per square arcsecond: for ' +
      'effective integration',
    '',
    'trains:',
    ...rig.trains.flatMap((train) => trainLines(train, facts, rig.trains)),
    '',
    '# What guides: off-axis on one of the trains, or a separate guide-scope.',
    '# guiding:',
    `#   source: off-axis`,
    `#   train: ${scalar(rig.trains[0]?.id ?? 'train')}`,
    guidingLogLine(facts),
    '',
    ...targetLines(rig, facts),
    ...filterLines(facts.filters),
    '',
    '# Limits of the verdicts with their defaults; remove the # to change one.',
    '# rules:',
    ...RULE_NAMES.map((name) => {
      const { key, brief, default: usual } = RULES[name];
      return `${`#   ${key}: ${usual} `.padEnd(RULE_WIDTH)}# ${brief}`;
    }),
    '',
  ].join('\n');
}

/** Degrees of a header's sexagesimal, without the tail of their binary form: to a tenth of a metre. */
function place(degrees: number): number {
  return Number(degrees.toFixed(6));
}

function siteLines({ site }: Rig): string[] {
  if (!site) {
    return [
      '# No header names the site. Without it the report has no darkness, Moon or altitudes.',
      '# site:',
      '#   name: "My observatory"',
      '#   latitude: 0.0           # degrees, north positive',
      '#   longitude: 0.0          # degrees, east positive',
      '#   elevation: 0            # metres',
      '#   timezone: Europe/Madrid # IANA name',
      '#   minimumAltitude: 25     # degrees; or horizon: [[azimuth, altitude], …]',
    ];
  }
  return [
    'site:',
    '  name: "My observatory"',
    `  latitude: ${place(site.latitudeDeg)}`,
    `  longitude: ${place(site.longitudeDeg)}`,
    site.elevationM === undefined
      ? '  # elevation: 0            # metres; not in the headers, so sea level is assumed'
      : `  elevation: ${site.elevationM}`,
    `  # timezone: ${site.timezone}   # IANA name, here as the coordinates give it`,
    `  minimumAltitude: ${site.minimumAltitudeDeg}     # degrees; or horizon: [[azimuth, altitude], ` +
      '…] for walls and trees',
  ];
}

function trainLines(train: TrainConfig, facts: StarterFacts, trains: readonly TrainConfig[]): string[] {
  const filters = ownValue(facts.filters, train.id) ?? [];
  const telescope = [
    train.focalLengthMm === undefined ? null : `focalLength: ${train.focalLengthMm}`,
    train.apertureMm === undefined ? null : `aperture: ${train.apertureMm}`,
  ].filter((part) => part !== null);
  const match = Object.entries(train.match).map(
    ([keyword, value]) =>
      `${keyword}: ${typeof value === 'object' ? `[ ${value.map(scalar).join(', ')} ]` : scalar(value)}`,
  );
  return [
    `  # ${ownValue(facts.frames, train.id) ?? 0} ` +
      `lights${filters.length > 0 ? `, filters ${filters.join(', ').replace(/[\r\n]/g, ' ')}` : ''}`,
    `  - id: ${scalar(train.id)}`,
    `    role: ${train.role}        # pilot: its computer steers mount and guiding; companion: it rides along`,
    telescope.length > 0
      ? `    telescope: { ${telescope.join(', ')} }   # mm`
      : '    # telescope: { focalLength: 480, aperture: 80 }   # mm',
    train.pixelSizeUm === undefined
      ? '    # camera: { pixelSize: 3.76 }   # µm'
      : `    camera: { pixelSize: ${train.pixelSizeUm} }   # µm`,
    '    # For effective integration, add to camera: readNoise (electrons), gain (electrons per ADU), ' +
      'darkCurrent (electrons per second);',
    '    # and to the train: throughput: 0.5 (electrons per photon), filters: { Ha: { width: 3 } } (nm)',
    ...(train.frames.length > 0 ? [`    frames: [ ${train.frames.map(scalar).join(', ')} ]`] : []),
    ...(match.length > 0 ? [`    match: { ${match.join(', ')} }   # header values of this train's frames`] : []),
    ...trainLogLines(train, trains, facts),
  ];
}

function targetLines({ targets }: Rig, { unplaced }: StarterFacts): string[] {
  if (targets.length === 0 && unplaced.length > 0)
    return [
      '# No header has coordinates of the targets: fill in ra and dec (J2000) and remove the #. Without them there',
      '# are no altitudes, air masses or distances from the Moon.',
      '# targets:',
      ...unplaced.map((name) => `#   ${unplacedItem(name)}`),
    ];
  if (targets.length === 0)
    return ['# targets: [ { name: "NGC 281", ra: "00:52:59", dec: "+56:37:19", goals: { Ha: 12h } } ]'];
  return [
    '# J2000. Goals are hours per filter, all trains together.',
    'targets:',
    ...targets.flatMap((t, i) => [
      `  - { name: ${scalar(t.name)}, ra: ${Number(t.raDeg.toFixed(5))}, dec: ` +
        `${Number(t.decDeg.toFixed(5))} }   # degrees; add goals: { Ha: 12h }`,
      ...samePlace(t, targets.slice(0, i)),
    ]),
    ...(unplaced.length > 0
      ? [
          '  # Not in the headers: fill in ra and dec (J2000), and remove the #.',
          ...unplaced.map((name) => `  # ${unplacedItem(name)}`),
        ]
      : []),
  ];
}

/** Names this close to each other are one field, degrees. */
const ONE_PLACE_DEG = 0.05;

function samePlace(target: TargetConfig, before: readonly TargetConfig[]): string[] {
  const same = before.find((one) => separationDeg(one.raDeg, one.decDeg, target.raDeg, target.decDeg) <= ONE_PLACE_DEG);
  return same === undefined
    ? []
    : [
        `    # ${scalar(target.name)} lies where ${scalar(same.name)} does. If they are one, remove this line and ` +
          `write there: aliases: [ ${scalar(target.name)} ]`,
      ];
}

function unplacedItem(name: string): string {
  return `- { name: ${scalar(name)}, ra: "hh:mm:ss", dec: "+dd:mm:ss" }`;
}
