import { AstroTime, Body, GeoMoon, HelioState, Rotation_EQJ_EQD, StateVector, Vector } from 'astronomy-engine';
import type { RotationMatrix } from 'astronomy-engine';

const NODE_STEP_MS = 3_600_000;
/** Nodes kept: a few weeks' worth, then it starts afresh. */
const NODES_KEPT = 1000;

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
 * Moon and Earth for many instants of one night, from the full theories at whole hours.
 *
 * Between them runs the cubic through the four nearest (Lagrange), which is true to 0.001″ for the Moon and far better
 * for the Earth; precession and nutation are those of the nearest hour, true to 0.01″. The theories themselves are good
 * to some arcseconds.
 */
export class Ephemeris {
  readonly #nodes = new Map<number, SolarSystem>();

  /** The Solar System at an instant given both ways. */
  at(atMs: number, time: AstroTime): SolarSystem {
    const hour = Math.floor(atMs / NODE_STEP_MS);
    const u = atMs / NODE_STEP_MS - hour;
    const [a, b, c, d] = [this.#node(hour - 1), this.#node(hour), this.#node(hour + 1), this.#node(hour + 2)];
    const weightA = -(u * (u - 1) * (u - 2)) / 6;
    const weightB = ((u + 1) * (u - 1) * (u - 2)) / 2;
    const weightC = -((u + 1) * u * (u - 2)) / 2;
    const weightD = ((u + 1) * u * (u - 1)) / 6;
    const blend = (part: (node: SolarSystem) => number): number =>
      weightA * part(a) + weightB * part(b) + weightC * part(c) + weightD * part(d);
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
      toDate: (u < 0.5 ? b : c).toDate,
    };
  }

  #node(hour: number): SolarSystem {
    const known = this.#nodes.get(hour);
    if (known) return known;
    if (this.#nodes.size >= NODES_KEPT) this.#nodes.clear();
    const time = new AstroTime(new Date(hour * NODE_STEP_MS));
    const node = { moon: GeoMoon(time), earth: HelioState(Body.Earth, time), toDate: Rotation_EQJ_EQD(time) };
    this.#nodes.set(hour, node);
    return node;
  }
}
