import {
  AstroTime,
  Body,
  GeoMoon,
  HelioState,
  Rotation_EQJ_EQD,
  RotationMatrix,
  StateVector,
  Vector,
} from 'astronomy-engine';
import { itemAt } from '../model/index.js';

const NODE_STEP_MS = 6 * 3_600_000;
/** Nodes kept: a few months' worth, then it starts afresh. */
const NODES_KEPT = 1000;

type Six<T> = readonly [T, T, T, T, T, T];

/** What the sky needs of the Solar System at one instant: J2000 equator, AU and days. */
export interface SolarSystem {
  /** The Moon from the Earth's centre, with its light time. */
  readonly moon: Vector;
  /** Place and speed of the Earth around the Sun. */
  readonly earth: StateVector;
  /** From J2000 to the true equator and equinox of date: precession and nutation. */
  readonly toDate: RotationMatrix;
}

/**
 * Moon, Earth and the axes of date for many instants of one night, from the full theories at every sixth hour.
 *
 * Between them runs the quintic through the six nearest (Lagrange), which is true to 0.0005″ for all of them: nothing
 * that matters here goes round faster than once a week. The theories themselves are good to some arcseconds.
 */
export class Ephemeris {
  readonly #nodes = new Map<number, SolarSystem>();
  #between: { readonly step: number; readonly nodes: Six<SolarSystem> } | undefined;

  /** The Solar System at an instant given both ways. */
  at(atMs: number, time: AstroTime): SolarSystem {
    const step = Math.floor(atMs / NODE_STEP_MS);
    const [a, b, c, d, e, f] = this.#around(step);
    const [wa, wb, wc, wd, we, wf] = lagrange(atMs / NODE_STEP_MS - step);
    const blend = (part: (node: SolarSystem) => number): number =>
      wa * part(a) + wb * part(b) + wc * part(c) + wd * part(d) + we * part(e) + wf * part(f);
    const axis = (row: 0 | 1 | 2): number[] =>
      [0, 1, 2].map((column) => blend(({ toDate }) => itemAt(itemAt(toDate.rot, row), column)));
    return {
      moon: new Vector(
        blend(({ moon }) => moon.x),
        blend(({ moon }) => moon.y),
        blend(({ moon }) => moon.z),
        time,
      ),
      earth: new StateVector(
        blend(({ earth }) => earth.x),
        blend(({ earth }) => earth.y),
        blend(({ earth }) => earth.z),
        blend(({ earth }) => earth.vx),
        blend(({ earth }) => earth.vy),
        blend(({ earth }) => earth.vz),
        time,
      ),
      toDate: new RotationMatrix([axis(0), axis(1), axis(2)]),
    };
  }
  /** The three nodes before an instant and the three after. */
  #around(step: number): Six<SolarSystem> {
    if (this.#between?.step === step) return this.#between.nodes;
    const at = (offset: number): SolarSystem => this.#node(step + offset);
    const nodes: Six<SolarSystem> = [at(-2), at(-1), at(0), at(1), at(2), at(3)];
    this.#between = { step, nodes };
    return nodes;
  }

  #node(step: number): SolarSystem {
    const known = this.#nodes.get(step);
    if (known) return known;
    if (this.#nodes.size >= NODES_KEPT) this.#nodes.clear();
    const time = new AstroTime(new Date(step * NODE_STEP_MS));
    const node = { moon: GeoMoon(time), earth: HelioState(Body.Earth, time), toDate: Rotation_EQJ_EQD(time) };
    this.#nodes.set(step, node);
    return node;
  }
}

/** Weights of the nodes at −2 … 3 for a place between 0 and 1 (Lagrange). */
function lagrange(u: number): Six<number> {
  const [a, b, c, d, e] = [u + 2, u + 1, u - 1, u - 2, u - 3];
  return [
    (-b * u * c * d * e) / 120,
    (a * u * c * d * e) / 24,
    (-a * b * c * d * e) / 12,
    (a * b * u * d * e) / 12,
    (-a * b * u * c * e) / 24,
    (a * b * u * c * d) / 120,
  ];
}
