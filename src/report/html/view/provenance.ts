import { madeText } from '../../made.js';
import {
  counted,
  decimal,
  fileSize,
  percent,
  RULE_NAMES,
  RULES,
  twilightLimits,
  UNKNOWN,
  whole,
  type EvidenceKind,
  type InputFile,
  type Night,
  type RuleName,
} from '../../../model/index.js';
import type { ViewContext } from './context.js';
import { windowKind } from './front.js';
import { column, figures, words, type Row, type Table } from './table.js';

export interface ProvenanceView {
  readonly inputs: Table;
  readonly rules: Table;
  readonly assumptions: readonly string[];
  readonly formulas: readonly { readonly name: string; readonly text: string }[];
  readonly made: string;
}

const ROLES: Readonly<Record<InputFile['role'], string>> = {
  frame: 'frames',
  'event-log': 'event log',
  'guiding-log': 'guiding log',
  'rig-file': 'rig file',
  dialect: 'dialect',
};

/** Frames are listed per train, other files individually. */
function inputRows(inputs: readonly InputFile[]): Row[] {
  const others = inputs.filter((input) => input.role !== 'frame');
  const trains = [...new Set(inputs.filter((input) => input.role === 'frame').map((input) => input.train))];
  const row = (
    name: string,
    role: string,
    train: string | undefined,
    bytes: number,
    lines: string,
    understood: string,
    hash: string,
  ): Row => ({
    cells: [
      words(name, { header: true }),
      words(role),
      words(train ?? UNKNOWN),
      figures(fileSize(bytes), bytes),
      figures(lines),
      figures(understood),
      words(hash),
    ],
  });
  return [
    ...others.map((input) =>
      row(
        input.file,
        ROLES[input.role],
        input.train,
        input.sizeBytes,
        input.lines === undefined ? UNKNOWN : whole(input.lines),
        input.understood === undefined ? UNKNOWN : whole(input.understood),
        input.sha256?.slice(0, 16) ?? UNKNOWN,
      ),
    ),
    ...trains.map((train) => {
      const frames = inputs.filter((input) => input.role === 'frame' && input.train === train);
      return row(
        counted(frames.length, 'frame file'),
        ROLES.frame,
        train,
        frames.reduce((sum, input) => sum + input.sizeBytes, 0),
        UNKNOWN,
        UNKNOWN,
        'one per header, in the night record',
      );
    }),
  ];
}

/** The thresholds of the evidence used: limits on pixels are only listed if stars were measured. */
function rulesInUse({ accounts, stars }: Night): readonly RuleName[] {
  const used = new Set<EvidenceKind>(['duration', 'guiding']);
  if (Object.keys(stars?.frames ?? {}).length > 0) used.add('pixels');
  for (const { causes, cleared } of accounts.lights) for (const { by } of [...causes, ...cleared]) used.add(by);
  return RULE_NAMES.filter((name) => used.has(RULES[name].of));
}

function ruleText(name: RuleName, value: number): string {
  const { unit, decimals } = RULES[name];
  if (unit === '%') return percent(value);
  return unit === '' ? decimal(value, decimals) : `${decimal(value, decimals)} ${unit}`;
}

function rulesTable({ night }: ViewContext): Table {
  const {
    gathered: { rules },
  } = night;
  const row = (name: string, value: string, meaning: string): Row => ({
    cells: [words(name, { header: true }), figures(value), words(meaning)],
  });
  return {
    caption: 'Rules by which frames were judged',
    name: 'rules',
    columns: [column('Rule'), column('Value', 'figures'), column('Meaning')],
    rows: [
      ...rulesInUse(night).map((name) => row(RULES[name].key, ruleText(name, rules[name]), RULES[name].meaning)),
      row(
        'minimumAltitude',
        night.gathered.site === null ? UNKNOWN : `${decimal(night.gathered.site.minimumAltitudeDeg, 0)}°`,
        night.gathered.site === null
          ? 'not applied: the site is not known'
          : `target below this${night.gathered.site.horizon.length > 0 ? ', or below the local horizon,' : ''} ` +
              'at mid-exposure: doubtful',
      ),
      row(
        'darkness',
        night.sky.almanac === null ? UNKNOWN : night.sky.almanac.window.asked,
        `the ledger’s window; taken here: ${windowKind(night)}`,
      ),
    ],
  };
}

function assumptions({ night, clock }: ViewContext): string[] {
  const inferred = night.timeline.activities.filter((activity) => activity.certainty === 'inferred').length;
  const assumed = night.timeline.activities.filter((activity) => activity.certainty === 'assumed').length;
  const scales = night.gathered.trains.filter((train) => train.pixelScaleArcsec === undefined).map((train) => train.id);
  return [
    `Times are kept in UTC, in whole milliseconds, and shown in ${clock.zone}. Spans include their first ` +
      'millisecond and not their last.',
    night.gathered.guideSource.source === 'unknown'
      ? 'It is not known what guides.'
      : night.gathered.guideSource.source === 'off-axis'
        ? 'Guiding is ' +
          `off-axis${night.gathered.guideSource.train === undefined ? '' : ` on ${night.gathered.guideSource.train}`}.`
        : 'Guiding is by a separate guide scope.',
    night.timeline.headersOnly
      ? 'There is no event log: every gap between exposures is classed by its length alone.'
      : `${counted(night.timeline.activities.length, 'stretch', 'stretches')} of activity: ${inferred} inferred, ` +
        `${assumed} assumed, the others measured.`,
    'Mount and guiding are shared: a dither is charged to each train’s ledger, and counts once in clock time.',
    'Integration counts every frame of the night; the ledger counts what lies inside the window. The two ' +
      'differ by frames that extend beyond its edges.',
    ...(scales.length === 0
      ? []
      : [`The pixel scale of ${scales.join(', ')} is not known: rough guiding was not judged there.`]),
  ];
}

const TWIN_GAIN: ProvenanceView['formulas'][number] = {
  name: 'Twin gain',
  text: 'kept integration of all trains ÷ kept integration of the better train; the ideal is the number of trains.',
};

const FORMULAS: ProvenanceView['formulas'] = [
  {
    name: 'Dither wait',
    text: 'from a train’s own readiness to the beginning of the move; the holder is the train that was ready last.',
  },
  {
    name: 'Ledger',
    text:
      'each millisecond of the window in one account: open shutter first, then a hold, then the train’s own ' +
      'work, then mount and guiding, then waiting, then unexplained.',
  },
  {
    name: 'Guiding RMS',
    text: 'square root of (mean of RA² + mean of Dec²), about zero error, over the samples inside the exposure.',
  },
  {
    name: 'Trail',
    text:
      'root of (12·Δ), Δ the variance that drift adds along the track, L²/12 for a steady drift L (a straight ' +
      'line through the errors, where it exceeds 3 of its own standard errors) and f·(a² + ab + b²)/3 − f²·(a + ' +
      'b)²/4 for one from a to b during the fraction f without guiding, after which the star is pulled back ' +
      '(f·d²/3 − f²·d²/4 where it begins within the exposure). A star of variance σ² is elongated by 1 − 1/(root ' +
      'of (1 + Δ/σ²)); σ = FWHM/2.3548 from the header. Second moments add under convolution; derived, not from a ' +
      'table.',
  },
  { name: 'Pixel scale', text: '206.265 × pixel size in µm × binning ÷ focal length in mm, arcseconds.' },
  {
    name: 'Darkness',
    text: `Sun’s centre below ${twilightLimits()}, without refraction; sunset and sunrise: upper limb with refraction.`,
  },
  { name: 'Moon', text: 'topocentric: seen from the site, not from the Earth’s centre.' },
];

/** The sources of every figure. */
export function provenanceView(context: ViewContext, version: string, nowMs: number): ProvenanceView {
  const { night } = context;
  return {
    inputs: {
      caption: 'Input files',
      name: 'inputs',
      columns: [
        column('File'),
        column('Role'),
        column('Train'),
        column('Size', 'figures'),
        column('Lines', 'figures'),
        column('Understood', 'figures'),
        column('SHA-256, first 16 digits'),
      ],
      rows: inputRows(night.gathered.inputs),
    },
    rules: rulesTable(context),
    assumptions: assumptions(context),
    formulas: night.gathered.trains.length > 1 ? [TWIN_GAIN, ...FORMULAS] : FORMULAS,
    made: madeText(version, nowMs),
  };
}
