import type {
  Activity,
  Cause,
  Finding,
  Frame,
  HeaderFrame,
  JudgedFrame,
  Night,
  Site,
  SkyNight,
  Source,
  TrainLedger,
  Warning,
  WorthAssessment,
} from '../../model/index.js';
import { coarseSky } from './coarse-sky.js';
import { baseName, scrubber, secretsOf } from './scrub.js';

type Scrub = (text: string) => string;

/** Metres to which the elevation is rounded: less tells the hill. */
const ELEVATION_STEP_M = 100;

function redactSite(site: Site): Site {
  return {
    ...site,
    name: '',
    latitudeDeg: Math.round(site.latitudeDeg),
    longitudeDeg: Math.round(site.longitudeDeg),
    elevationM: Math.round(site.elevationM / ELEVATION_STEP_M) * ELEVATION_STEP_M,
    horizon: [],
  };
}

const fileName = (path: string, scrub: Scrub): string => scrub(baseName(path));

const redactSource = (source: Source, scrub: Scrub): Source => ({ ...source, file: fileName(source.file, scrub) });

/** Target and filter, where they are named. */
function namesOf(
  { target, filter }: { readonly target?: string; readonly filter?: string },
  scrub: Scrub,
): { target?: string; filter?: string } {
  return {
    ...(target === undefined ? {} : { target: scrub(target) }),
    ...(filter === undefined ? {} : { filter: scrub(filter) }),
  };
}

/** Of a header, what the report shows or reckons with, named one by one: whatever else a header holds stays at home. */
function redactHeader(header: HeaderFrame, scrub: Scrub): HeaderFrame {
  const {
    sizeBytes,
    headerHash,
    kind,
    exposure,
    exposureSeconds,
    gain,
    offset,
    binning,
    sensorTemperatureC,
    setTemperatureC,
    focusPosition,
    focusTemperatureC,
    starSize,
    starCount,
    backgroundAdu,
    electronsPerAdu,
    readNoiseElectrons,
    focalLengthMm,
    apertureMm,
    pixelSizeUm,
    width,
    height,
  } = header;
  return {
    sizeBytes,
    headerHash,
    kind,
    exposure,
    exposureSeconds,
    gain,
    offset,
    binning,
    sensorTemperatureC,
    setTemperatureC,
    focusPosition,
    focusTemperatureC,
    starSize,
    starCount,
    backgroundAdu,
    electronsPerAdu,
    readNoiseElectrons,
    focalLengthMm,
    apertureMm,
    pixelSizeUm,
    width,
    height,
    file: fileName(header.file, scrub),
    ...namesOf(header, scrub),
  };
}

function redactFrame<T extends Frame>(frame: T, scrub: Scrub): T {
  return {
    ...frame,
    ...namesOf(frame, scrub),
    ...(frame.file === undefined ? {} : { file: fileName(frame.file, scrub) }),
    ...(frame.header === undefined ? {} : { header: redactHeader(frame.header, scrub) }),
    sources: frame.sources.map((source) => redactSource(source, scrub)),
  };
}

const redactCause = (cause: Cause, scrub: Scrub): Cause => ({
  ...cause,
  evidence: scrub(cause.evidence),
  sources: cause.sources.map((source) => redactSource(source, scrub)),
});

const redactJudged = (frame: JudgedFrame, scrub: Scrub): JudgedFrame => ({
  ...redactFrame(frame, scrub),
  causes: frame.causes.map((cause) => redactCause(cause, scrub)),
  cleared: frame.cleared.map((cleared) => ({ ...cleared, evidence: scrub(cleared.evidence) })),
});

const redactLedger = (ledger: TrainLedger, scrub: Scrub): TrainLedger => ({
  ...ledger,
  segments: ledger.segments.map((segment) =>
    segment.label === undefined ? segment : { ...segment, label: scrub(segment.label) },
  ),
});

/** What the worth rests on names targets and filters, and says in words what headers hold. */
function redactWorth(worth: WorthAssessment | null, scrub: Scrub): WorthAssessment | null {
  if (worth === null) return null;
  return {
    ...worth,
    totals: Object.fromEntries(Object.entries(worth.totals).map(([key, total]) => [scrub(key), total])),
    moonlight: worth.moonlight.map((curve) => ({ ...curve, target: scrub(curve.target) })),
    orders: worth.orders.map((order) => ({
      ...order,
      target: scrub(order.target),
      filters: order.filters.map((place) => ({ ...place, filter: scrub(place.filter) })),
    })),
    measures: worth.measures.map((note) => ({ ...note, filter: scrub(note.filter), how: scrub(note.how) })),
    noises: worth.noises.map((note) => ({ ...note, filter: scrub(note.filter) })),
  };
}

/** The sky names nothing but in the note on its window. */
function redactSky(sky: SkyNight | null, scrub: Scrub): SkyNight | null {
  if (sky === null || sky.window.note === undefined) return sky;
  return { ...sky, window: { ...sky.window, note: scrub(sky.window.note) } };
}

const redactActivity = (activity: Activity, scrub: Scrub): Activity => ({
  ...activity,
  ...(activity.why === undefined ? {} : { why: scrub(activity.why) }),
  sources: activity.sources.map((source) => redactSource(source, scrub)),
});

const redactWarning = (warning: Warning, scrub: Scrub): Warning => ({
  ...warning,
  message: scrub(warning.message),
  ...(warning.source === undefined ? {} : { source: redactSource(warning.source, scrub) }),
});

const redactFinding = (finding: Finding, scrub: Scrub): Finding => ({
  ...finding,
  title: scrub(finding.title),
  evidence: finding.evidence.map(scrub),
  advice: scrub(finding.advice),
  ...(finding.caution === undefined ? {} : { caution: scrub(finding.caution) }),
  ...(finding.links === undefined ? {} : { links: finding.links.map((link) => ({ ...link, text: scrub(link.text) })) }),
});

/**
 * The night without what tells where home is or who keeps it: the site in whole degrees and without its name; files
 * by their names alone; no equipment strings; paths, names of users and computers, serial numbers and figures of the
 * place taken out of every sentence. The sky becomes as coarse as the site, and the window with it, and the ledgers
 * balance over what is left. Nothing else changes: verdicts, totals and waits are the same.
 *
 * A night that is already redacted comes back the same.
 */
export function redactNight(night: Night): Night {
  const scrub = scrubber(secretsOf(night));
  const { gathered, timeline, sky, accounts, findings, ...coarse } = coarseSky(night);
  const frame = <T extends Frame>(one: T): T => redactFrame(one, scrub);
  const warning = (one: Warning): Warning => redactWarning(one, scrub);
  const named = <T extends { readonly name: string; readonly aliases: readonly string[] }>(one: T): T => ({
    ...one,
    name: scrub(one.name),
    aliases: one.aliases.map(scrub),
  });
  return {
    ...coarse,
    gathered: {
      ...gathered,
      site: gathered.site === null ? null : redactSite(gathered.site),
      goals: gathered.goals.map(named),
      guiding: gathered.guiding && {
        ...gathered.guiding,
        sources: gathered.guiding.sources.map((source) => redactSource(source, scrub)),
      },
      inputs: gathered.inputs.map((input) => ({ ...input, file: fileName(input.file, scrub) })),
      warnings: gathered.warnings.map(warning),
    },
    timeline: {
      ...timeline,
      frames: timeline.frames.map(frame),
      library: timeline.library.map(frame),
      activities: timeline.activities.map((activity) => redactActivity(activity, scrub)),
      targets: timeline.targets.map(named),
      coolers: timeline.coolers.map((reading) => ({ ...reading, source: redactSource(reading.source, scrub) })),
      clocks: timeline.clocks.map((clock) => ({ ...clock, against: scrub(clock.against) })),
      warnings: timeline.warnings.map(warning),
    },
    sky: {
      ...sky,
      almanac: redactSky(sky.almanac, scrub),
      curves: sky.curves.map((curve) => ({ ...curve, target: scrub(curve.target) })),
      warnings: sky.warnings.map(warning),
    },
    accounts: {
      ...accounts,
      lights: accounts.lights.map((one) => redactJudged(one, scrub)),
      ledgers: accounts.ledgers.map((ledger) => redactLedger(ledger, scrub)),
      totals: accounts.totals.map((total) => ({ ...total, target: scrub(total.target), filter: scrub(total.filter) })),
      guidingByTarget: accounts.guidingByTarget.map((one) => ({ ...one, target: scrub(one.target) })),
    },
    worth: redactWorth(coarse.worth, scrub),
    findings: {
      ranked: findings.ranked.map((finding) => redactFinding(finding, scrub)),
      notAssessed: findings.notAssessed.map((one) => ({
        ...one,
        title: scrub(one.title),
        missing: scrub(one.missing),
      })),
    },
  };
}
