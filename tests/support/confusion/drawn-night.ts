/**
 * Random nights of two trains on one mount whose harm is drawn: how the star moved over the sensor during each exposure,
 * how wide it was and how much of its light came through. What the logs and the guiding would say goes with it. Shares
 * no code with the judging.
 */
import { interval, type Activity, type Frame, type GuidingSeries, type Train } from '../../../src/model/index.js';
import { activityOf } from '../activities.js';
import type { DrawnShape, Profile } from '../drawing/draw-stars.js';
import type { Random } from '../generator/random.js';

export const TRAINS: readonly Train[] = [
  { id: 'heron', role: 'pilot', pixelScaleArcsec: 1.6 },
  { id: 'wren', role: 'companion', pixelScaleArcsec: 1.3 },
];
const START_MS = Date.UTC(2026, 9, 14, 20);
const EXPOSURE_S = 300;
const SLOT_S = 320;
const CADENCE_S = 2;
/** How fast guiding pulls a star back, and a mount follows a dither, s. */
const PULL_S = 4;
/** Instants of an exposure at which the star's place is taken, and the grid of places, px. */
const INSTANTS = 300;
const GRID_PX = 0.1;

/** What was drawn into one frame. */
export interface DrawnLight {
  readonly frame: Frame;
  readonly shape: DrawnShape & { readonly path: NonNullable<DrawnShape['path']> };
  /** Share of the starlight that came through. */
  readonly transmission: number;
  /** Share of the exposure at another place than the longest, where the mount jumped; 0 where it did not. */
  readonly jumpShare: number;
  /** The way that the mount alone drew, without the flexure beside it, px. */
  readonly mountPath: NonNullable<DrawnShape['path']>;
  /** What happened, for tables. */
  readonly events: readonly string[];
}

export interface DrawnNight {
  readonly lights: readonly DrawnLight[];
  readonly activities: readonly Activity[];
  /** `null` where no guiding is known. */
  readonly guiding: GuidingSeries | null;
}

export interface NightOptions {
  readonly frames: number;
  /** Bad as a whole: wide or trailed in every frame. */
  readonly bad?: 'wide' | 'trailed';
  /** The filters in turn; one unless given. */
  readonly filters?: readonly string[];
}

interface Place {
  readonly ra: number;
  readonly dec: number;
}

/** One thing that happens on the mount, in seconds from the night's start and arcseconds. */
type MountEvent =
  | { readonly kind: 'rest' | 'gap'; readonly from: number; readonly to: number; readonly drift: Place }
  | { readonly kind: 'jump'; readonly from: number; readonly move: Place };

interface Slot {
  readonly names: string[];
  readonly events: MountEvent[];
  /** Of the guiding, per axis, arcseconds. */
  jitter: number;
  transmission: number;
  /** Of a drift that guiding does not see, over the exposure. */
  flexure: Place;
  /** Times the usual width, by train. */
  readonly defocus: Map<string, number>;
}

/** Draws a night. */
export function drawNight(random: Random, { frames, bad, filters = ['Ha'] }: NightOptions): DrawnNight {
  const usualJitter = logUniform(random, 0.2, 0.6);
  const slots = Array.from({ length: frames }, (_, k) => drawSlot(random, k * SLOT_S, usualJitter));
  const events = slots.flatMap((slot) => slot.events).sort((a, b) => a.from - b.from);
  const lights = TRAINS.flatMap((train) => {
    const fwhm = (bad === 'wide' ? 2 : 1) * (2.2 + 1.3 * random.next());
    const elongation = bad === 'trailed' ? 1.3 + 0.4 * random.next() : 1.01 + 0.12 * random.next();
    const direction = 180 * random.next();
    const turn = 2 * Math.PI * random.next();
    return slots.map((slot, k): DrawnLight => {
      const begin = k * SLOT_S;
      const jitterPx = Math.sqrt(Math.max(0, slot.jitter ** 2 - usualJitter ** 2)) / scaleOf(train);
      const seeing = fwhm * (1 + 0.03 * random.normal(0, 1));
      const width = Math.hypot(seeing, 2.3548 * jitterPx) * (slot.defocus.get(train.id) ?? 1);
      return {
        frame: {
          id: `${train.id}-${k}`,
          kind: 'light',
          train: train.id,
          target: 'NGC 281',
          filter: filters[k % filters.length],
          exposure: interval(START_MS + begin * 1000, START_MS + (begin + EXPOSURE_S) * 1000),
          askedMs: EXPOSURE_S * 1000,
          header: {
            file: '',
            sizeBytes: 0,
            headerHash: '',
            kind: 'light',
            starSize: { pixels: width, measure: 'fwhm' },
          },
          provenance: 'file-only',
          sources: [],
        },
        shape: {
          profile: profileOf(random, width, slot.defocus.has(train.id)),
          elongation,
          direction,
          path: pathOf(events, slot.flexure, begin, scaleOf(train), turn),
        },
        transmission: slot.transmission * (1 + 0.02 * random.normal(0, 1)),
        jumpShare: jumpShareOf(events, begin),
        mountPath: pathOf(events, { ra: 0, dec: 0 }, begin, scaleOf(train), turn),
        events: [...slot.names.filter((name) => name !== 'defocus' || slot.defocus.has(train.id))],
      };
    });
  });
  return { lights, activities: activitiesOf(events, frames), guiding: guidingOf(random, slots, events) };
}

const scaleOf = ({ pixelScaleArcsec = NaN }: Train): number => pixelScaleArcsec;

function profileOf(random: Random, fwhm: number, isDefocused: boolean): Profile {
  if (isDefocused && fwhm > 7 && random.next() < 0.5)
    return { kind: 'ring', inner: 0.22 * fwhm, outer: fwhm / 2, soft: 0.6 };
  return { kind: 'gaussian', fwhm };
}

function drawSlot(random: Random, begin: number, usualJitter: number): Slot {
  const slot: Slot = {
    names: [],
    events: [],
    jitter: usualJitter,
    transmission: 1,
    flexure: { ra: 0, dec: 0 },
    defocus: new Map(),
  };
  const happens = random.next() < 0.35 ? 0 : random.next() < 0.85 ? 1 : 2;
  for (let i = 0; i < happens; i++) addEvent(random, slot, begin);
  return slot;
}

function addEvent(random: Random, slot: Slot, begin: number): void {
  const some = random.whole(0, 7);
  const isMountBusy = slot.events.length > 0;
  if (some <= 1 && !isMountBusy) {
    const kind = some === 0 ? 'rest' : 'gap';
    const from = begin + 20 + 150 * random.next();
    const to = from + logUniform(random, 5, 110);
    const drift = anyWay(random, random.next() < 0.5 ? 0.3 * random.next() : logUniform(random, 0.5, 14));
    slot.events.push({ kind, from, to, drift });
    slot.names.push(kind);
  } else if (some === 2 && !isMountBusy) {
    const share = 0.0037 + 0.0035 * random.next();
    slot.events.push({
      kind: 'jump',
      from: begin + EXPOSURE_S * (1 - share),
      move: anyWay(random, logUniform(random, 2, 14)),
    });
    slot.names.push('short jump');
  } else if (some === 3 && !isMountBusy) {
    const share = random.next() < 0.4 ? 0.1 : logUniform(random, 0.02, 0.9);
    slot.events.push({
      kind: 'jump',
      from: begin + EXPOSURE_S * (1 - share),
      move: anyWay(random, logUniform(random, 1.5, 14)),
    });
    slot.names.push('jump');
  } else if (some === 4) {
    slot.flexure = anyWay(random, logUniform(random, 0.5, 20));
    slot.names.push('flexure');
  } else if (some === 5) {
    slot.jitter = logUniform(random, 0.5, 4);
    slot.names.push('wind');
  } else if (some === 6) {
    slot.transmission = logUniform(random, 0.04, 0.95);
    slot.names.push('cloud');
  } else if (some === 7) {
    const train = TRAINS[random.whole(0, TRAINS.length - 1)];
    if (train !== undefined) slot.defocus.set(train.id, logUniform(random, 1.05, 3));
    slot.names.push('defocus');
  }
}

function logUniform(random: Random, low: number, high: number): number {
  return low * (high / low) ** random.next();
}

function anyWay(random: Random, length: number): Place {
  const angle = 2 * Math.PI * random.next();
  return { ra: length * Math.cos(angle), dec: length * Math.sin(angle) };
}

/** Where the star stands beside its first place, arcseconds. */
function placeAt(events: readonly MountEvent[], at: number): Place {
  let [ra, dec] = [0, 0];
  for (const event of events) {
    if (at <= event.from) break;
    const isJump = event.kind === 'jump';
    const move = isJump ? event.move : event.drift;
    const gone = isJump
      ? 1 - Math.exp(-(at - event.from) / PULL_S)
      : at < event.to
        ? (at - event.from) / (event.to - event.from)
        : Math.exp(-(at - event.to) / PULL_S);
    ra += gone * move.ra;
    dec += gone * move.dec;
  }
  return { ra, dec };
}

/** The star's way during an exposure about its mean place, in px of the train. */
function pathOf(events: readonly MountEvent[], flexure: Place, begin: number, scale: number, turn: number) {
  const shares = new Map<string, { x: number; y: number; share: number }>();
  const places = Array.from({ length: INSTANTS }, (_, i) => {
    const done = (i + 0.5) / INSTANTS;
    const { ra, dec } = placeAt(events, begin + done * EXPOSURE_S);
    const [sky, up] = [(ra + done * flexure.ra) / scale, (dec + done * flexure.dec) / scale];
    return { x: sky * Math.cos(turn) - up * Math.sin(turn), y: sky * Math.sin(turn) + up * Math.cos(turn) };
  });
  const first = places[0] ?? { x: 0, y: 0 };
  for (const place of places) {
    const x = Math.round((place.x - first.x) / GRID_PX) * GRID_PX;
    const y = Math.round((place.y - first.y) / GRID_PX) * GRID_PX;
    const key = `${x.toFixed(1)} ${y.toFixed(1)}`;
    const share = (shares.get(key)?.share ?? 0) + 1 / INSTANTS;
    shares.set(key, { x, y, share });
  }
  return [...shares.values()];
}

function jumpShareOf(events: readonly MountEvent[], begin: number): number {
  const jump = events.find((e) => e.kind === 'jump' && e.from > begin && e.from < begin + EXPOSURE_S);
  if (jump === undefined) return 0;
  const after = (begin + EXPOSURE_S - jump.from) / EXPOSURE_S;
  return Math.min(after, 1 - after);
}

function activitiesOf(events: readonly MountEvent[], frames: number): Activity[] {
  const span = (from: number, to: number) =>
    interval(START_MS + Math.round(from * 1000), START_MS + Math.round(to * 1000));
  const own = events.flatMap((event): Activity[] => {
    if (event.kind === 'rest') return [activityOf('guiding-rest', span(event.from, event.to), { causedBy: 'heron' })];
    if (event.kind === 'gap') return [activityOf('star-gap', span(event.from, event.to))];
    return [
      activityOf('dither-move', span(event.from, event.from + 2), { causedBy: 'heron' }),
      activityOf('settling', span(event.from + 2, event.from + 14), { causedBy: 'heron' }),
    ];
  });
  return [activityOf('guiding-on', span(-60, frames * SLOT_S)), ...own].sort((a, b) => a.span.startMs - b.span.startMs);
}

/** What the guiding would have logged: nothing while it is off, else the error with its jitter. */
function guidingOf(random: Random, slots: readonly Slot[], events: readonly MountEvent[]): GuidingSeries {
  const rows: { at: number; ra: number; dec: number }[] = [];
  for (let at = -60; at < slots.length * SLOT_S; at += CADENCE_S) {
    if (events.some((e) => e.kind !== 'jump' && at >= e.from && at < e.to)) continue;
    const jitter = slots[Math.max(0, Math.floor(at / SLOT_S))]?.jitter ?? NaN;
    let [ra, dec] = [random.normal(0, jitter), random.normal(0, jitter)];
    for (const event of events) {
      const since = at - (event.kind === 'jump' ? event.from : event.to);
      if (since < 0 || since > 60) continue;
      const error = event.kind === 'jump' ? { ra: -event.move.ra, dec: -event.move.dec } : event.drift;
      ra += error.ra * Math.exp(-since / PULL_S);
      dec += error.dec * Math.exp(-since / PULL_S);
    }
    rows.push({ at, ra, dec });
  }
  return {
    atMs: Float64Array.from(rows, ({ at }) => START_MS + at * 1000),
    raArcsec: Float64Array.from(rows, ({ ra }) => ra),
    decArcsec: Float64Array.from(rows, ({ dec }) => dec),
    snr: new Float64Array(rows.length).fill(NaN),
    sources: [],
  };
}
