import {
  cameraTurns,
  clip,
  contradictsTimes,
  coveredMs,
  intersect,
  interval,
  ownValue,
  subtract,
  union,
  usableFor,
  type Account,
  type Interval,
  type JudgedFrame,
  type LedgerSegment,
  type Night,
  imagedSpan,
  lightsOf,
  warningsOf,
} from '../../model/index.js';

/** Dark time in which a shutter stayed closed for one reason: clock hours, each moment counted once. */
export interface Loss {
  /** `unused darkness`, `cloud`, `heron waiting for wren`. */
  readonly label: string;
  /** Trains that lost it; empty if the label names them. */
  readonly trains: readonly string[];
  readonly ms: number;
  /** The part of it that the night’s findings count separately. */
  readonly part?: { readonly label: string; readonly ms: number };
}

/** Labels of a train's and the mount's activities that cost time. Readout is part of every frame and omitted. */
const WORK: Partial<Record<Account, string>> = {
  pointing: 'slewing, centring and flip',
  dither: 'dithering and settling',
  focus: 'focusing',
  filter: 'filter changes',
  guiding: 'starting the guiding',
};

interface TrainSegments {
  readonly train: string;
  readonly segments: readonly LedgerSegment[];
}

/** What the night's dark time was lost to while shutters were closed, longest first. Milliseconds. */
export function lossesOf(night: Night): Loss[] {
  const lights = imagedSpan(night.accounts.lights);
  if (lights === null) return [];
  const { window } = night.sky;
  const working = intersect(window, lights);
  const ledgers = night.accounts.ledgers.map(({ train, segments }) => ({ train, segments }));
  // If a train's times are refuted by the sky, its begin is unknown.
  const isDated = !contradictsTimes(night.sky);
  return [
    ...(isDated ? unused(night, window, lights) : []),
    ...holds(ledgers),
    ...waits(night, ledgers),
    ...(working === null
      ? []
      : [
          ...(isDated ? lateAndEarly(night, ledgers, working) : []),
          ...work(ledgers),
          ...unexplained(night, ledgers, working),
        ]),
  ]
    .filter(({ ms }) => ms > 0)
    .sort((a, b) => b.ms - a.ms);
}

const spansOf = (segments: readonly LedgerSegment[], account: Account): Interval[] =>
  segments.filter((segment) => segment.account === account).map(({ span }) => span);

/**
 * Darkness before any train's first exposure and after every train's last, without holds: as dark as required by the
 * filters in use then, and while one of their targets was high enough, the same as in the finding.
 */
function unused(night: Night, window: Interval, lights: Interval): Loss[] {
  // If darkness never comes the window is a convention, and nobody left it unused.
  if (night.sky.almanac === null || night.sky.almanac.window.kind === 'sun-minimum') return [];
  const held = night.accounts.ledgers.flatMap(({ segments }) => spansOf(segments, 'hold'));
  const ends = [
    { of: (own: readonly JudgedFrame[]) => own[0], from: window.startMs, to: lights.startMs },
    { of: (own: readonly JudgedFrame[]) => own.at(-1), from: lights.endMs, to: window.endMs },
  ];
  const usable = ends.flatMap(({ of, from, to }) =>
    from >= to
      ? []
      : night.gathered.trains.flatMap(({ id }) => {
          const edge = of(lightsOf(night, id));
          return edge === undefined ? [] : clip(usableFor(edge, night), interval(from, to));
        }),
  );
  return [{ label: 'unused darkness', trains: [], ms: coveredMs(subtract(union(usable), held)) }];
}

/** One loss per label, with all trains affected. */
function byLabel(
  parts: readonly { readonly label: string; readonly train: string; readonly spans: readonly Interval[] }[],
): Loss[] {
  const labels = [...new Set(parts.map(({ label }) => label))];
  return labels.map((label) => {
    const own = parts.filter((part) => part.label === label && part.spans.length > 0);
    return {
      label,
      trains: [...new Set(own.map(({ train }) => train))],
      ms: coveredMs(union(own.flatMap(({ spans }) => spans))),
    };
  });
}

/**
 * Holds by reason. One train may take darks while the other waits for the same cloud: a moment with two reasons is
 * counted under the longer one.
 */
function holds(ledgers: readonly TrainSegments[]): Loss[] {
  const all = ledgers.flatMap(({ train, segments }) =>
    segments
      .filter(({ account }) => account === 'hold')
      .map(({ label, span }) => ({ label: label ?? 'hold, reason not stated', train, spans: [span] })),
  );
  const longest = byLabel(all).sort((a, b) => b.ms - a.ms);
  return longest.map((loss, i) => {
    const spansUnder = (labels: readonly string[]): Interval[] =>
      union(all.flatMap(({ label, spans }) => (labels.includes(label) ? spans : [])));
    const longer = longest.slice(0, i).map(({ label }) => label);
    return { ...loss, ms: coveredMs(subtract(spansUnder([loss.label]), spansUnder(longer))) };
  });
}

/** Waits named by who waited for whom, if the dither cycles or the number of trains determine it. */
function waits(night: Night, ledgers: readonly TrainSegments[]): Loss[] {
  const ids = night.gathered.trains.map(({ id }) => id);
  return ledgers.flatMap(({ train, segments }) => {
    const idle = [...spansOf(segments, 'dither-wait'), ...spansOf(segments, 'partner-wait')];
    const others = ids.filter((id) => id !== train);
    const [other] = others;
    if (other !== undefined && others.length === 1) {
      const part = { label: 'at dithers', ms: coveredMs(union(spansOf(segments, 'dither-wait'))) };
      return [{ label: `${train} waiting for ${other}`, trains: [], ms: coveredMs(union(idle)), part }];
    }
    const held = night.accounts.dithers.flatMap(({ holder, waits: of, beginMs }) => {
      const wait = ownValue(of, train);
      return holder === null || holder === train || !wait || wait.waitMs <= 0
        ? []
        : [{ holder, span: interval(wait.readyMs, beginMs) }];
    });
    const known = others.map((holder) => ({
      label: `${train} waiting for ${holder}`,
      trains: [],
      ms: coveredMs(
        clipTo(
          idle,
          held.filter((one) => one.holder === holder).map(({ span }) => span),
        ),
      ),
    }));
    const rest = coveredMs(union(idle)) - known.reduce((sum, { ms }) => sum + ms, 0);
    return [...known, { label: `${train} waiting`, trains: [], ms: rest }];
  });
}

function clipTo(spans: readonly Interval[], by: readonly Interval[]): Interval[] {
  return union(spans.flatMap((span) => by.flatMap((one) => intersect(span, one) ?? [])));
}

/** A train is not called idle if a mistake in a glob may have missed its frames. */
const NOT_FOUND: readonly string[] = ['frames-not-found', 'train-without-frames'];

/** A train that began after the first one, or ended before the last one. */
function lateAndEarly(night: Night, ledgers: readonly TrainSegments[], working: Interval): Loss[] {
  const notFound = new Set(warningsOf(night).flatMap(({ code, train }) => (NOT_FOUND.includes(code) ? train : [])));
  const turns = cameraTurns(night.timeline.frames);
  return ledgers.flatMap(({ train, segments }) => {
    const own = imagedSpan(lightsOf(night, train));
    const free = (from: number, to: number): number =>
      from >= to ? 0 : coveredMs(clipTo([interval(from, to)], spansOf(segments, 'unexplained')));
    if (own === null) {
      const how = notFound.has(train) ? '(no frames found)' : 'not imaging';
      return [{ label: `${train} ${how}`, trains: [], ms: free(working.startMs, working.endMs) }];
    }
    const late = { label: `${train} starting late`, ms: free(working.startMs, Math.min(own.startMs, working.endMs)) };
    const early = { label: `${train} stopping early`, ms: free(Math.max(own.endMs, working.startMs), working.endMs) };
    // Its camera was on another telescope then.
    return [
      ...(turns.some(({ to }) => to === train) ? [] : [{ ...late, trains: [] }]),
      ...(turns.some(({ from }) => from === train) ? [] : [{ ...early, trains: [] }]),
    ];
  });
}

function work(ledgers: readonly TrainSegments[]): Loss[] {
  return byLabel(
    ledgers.flatMap(({ train, segments }) =>
      Object.entries(WORK).map(([account, label]) => ({
        label,
        train,
        spans: segments.filter((segment) => segment.account === account).map(({ span }) => span),
      })),
    ),
  );
}

/** Unexplained gaps between a train's first exposure and its last. */
function unexplained(night: Night, ledgers: readonly TrainSegments[], working: Interval): Loss[] {
  return byLabel(
    ledgers.flatMap(({ train, segments }) => {
      const own = imagedSpan(lightsOf(night, train));
      const within = own && intersect(own, working);
      return within === null
        ? []
        : [{ label: 'unexplained gaps', train, spans: clipTo([within], spansOf(segments, 'unexplained')) }];
    }),
  );
}
