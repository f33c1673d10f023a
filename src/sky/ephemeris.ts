import { AstroTime, Body, GeoMoon, HelioState, Rotation_EQJ_EQD } from 'astronomy-engine';

const NODE_STEP_MS = 6 * 3_600_000;
/** Nodes kept: those of a year's outlook, which the plan of its first nights asks for again, then it starts afresh. */
const NODES_KEPT = 2000;

/** A vector, or the image of an axis. */
export type Triple = readonly [x: number, y: number, z: number];

/**
 * The Solar System at one instant; J2000 equator, AU and days. Eighteen numbers in one list, since a night requests
 * thousands: the Moon from the Earth's centre with its light time (0 to 2), position (3 to 5) and velocity (6 to 8) of
 * the Earth relative to the Sun, and the rotation from J2000 to the true equator and equinox of date (precession and
 * nutation), as the images of the first axis (9 to 11), the second (12 to 14) and the third (15 to 17).
 */
export type SolarSystem = readonly [...Triple, ...Triple, ...Triple, ...Triple, ...Triple, ...Triple];

type Place = 0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12 | 13 | 14 | 15 | 16 | 17;

/** For each of the six nodes around an instant. */
interface Six<T> {
  readonly a: T;
  readonly b: T;
  readonly c: T;
  readonly d: T;
  readonly e: T;
  readonly f: T;
}

/**
 * Moon, Earth and the axes of date for many instants of one night, from the full theories at every sixth hour.
 *
 * Between them runs the quintic through the six nearest (Lagrange), which is true to 0.0005″ for all of them: nothing
 * that matters here goes round faster than once a week. The theories themselves are good to some arcseconds.
 */
export class Ephemeris {
  #between: { readonly step: number; readonly nodes: Six<SolarSystem> } | undefined;

  /** The Solar System at an instant, UTC milliseconds since the epoch. */
  at(atMs: number): SolarSystem {
    const step = Math.floor(atMs / NODE_STEP_MS);
    return blend(this.#around(step), lagrange(atMs / NODE_STEP_MS - step));
  }

  /** The three nodes before an instant and the three after. */
  #around(step: number): Six<SolarSystem> {
    if (this.#between?.step === step) return this.#between.nodes;
    const at = (offset: number): SolarSystem => nodeAt(step + offset);
    const nodes: Six<SolarSystem> = { a: at(-2), b: at(-1), c: at(0), d: at(1), e: at(2), f: at(3) };
    this.#between = { step, nodes };
    return nodes;
  }
}

/** Independent of the site: computed once in a process, for all of its sites and nights. */
const NODES = new Map<number, SolarSystem>();

function nodeAt(step: number): SolarSystem {
  const known = NODES.get(step);
  if (known) return known;
  if (NODES.size >= NODES_KEPT) NODES.clear();
  const node = byTheory(new AstroTime(new Date(step * NODE_STEP_MS)));
  NODES.set(step, node);
  return node;
}

/** By the full theories. */
function byTheory(time: AstroTime): SolarSystem {
  const moon = GeoMoon(time);
  const earth = HelioState(Body.Earth, time);
  const { rot } = Rotation_EQJ_EQD(time);
  // The library types its matrices as lists of any length.
  const [first, second, third] = rot as unknown as readonly [Triple, Triple, Triple];
  return [
    moon.x,
    moon.y,
    moon.z,
    earth.x,
    earth.y,
    earth.z,
    earth.vx,
    earth.vy,
    earth.vz,
    ...first,
    ...second,
    ...third,
  ];
}

function blend({ a, b, c, d, e, f }: Six<SolarSystem>, weights: Six<number>): SolarSystem {
  const at = (i: Place): number =>
    weights.a * a[i] + weights.b * b[i] + weights.c * c[i] + weights.d * d[i] + weights.e * e[i] + weights.f * f[i];
  return [
    at(0),
    at(1),
    at(2),
    at(3),
    at(4),
    at(5),
    at(6),
    at(7),
    at(8),
    at(9),
    at(10),
    at(11),
    at(12),
    at(13),
    at(14),
    at(15),
    at(16),
    at(17),
  ];
}

/** Weights of the nodes at −2 … 3 for a place between 0 and 1 (Lagrange). */
function lagrange(u: number): Six<number> {
  const p = u + 2;
  const q = u + 1;
  const r = u - 1;
  const s = u - 2;
  const t = u - 3;
  return {
    a: (-q * u * r * s * t) / 120,
    b: (p * u * r * s * t) / 24,
    c: (-p * q * r * s * t) / 12,
    d: (p * q * u * s * t) / 12,
    e: (-p * q * u * r * t) / 24,
    f: (p * q * u * r * s) / 120,
  };
}
