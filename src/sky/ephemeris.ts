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

/** For each of the six nodes around an instant. */
interface Six<T> {
  readonly a: T;
  readonly b: T;
  readonly c: T;
  readonly d: T;
  readonly e: T;
  readonly f: T;
}

interface Triple {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** The Solar System by the full theories at one instant. */
interface Node {
  readonly moon: Triple;
  readonly earth: Triple;
  readonly speed: Triple;
  /** The rows of the turn to the axes of date. */
  readonly rows: { readonly first: Triple; readonly second: Triple; readonly third: Triple };
}

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
  readonly #nodes = new Map<number, Node>();
  #between: { readonly step: number; readonly nodes: Six<Node> } | undefined;

  /** The Solar System at an instant given both ways. */
  at(atMs: number, time: AstroTime): SolarSystem {
    const step = Math.floor(atMs / NODE_STEP_MS);
    const nodes = this.#around(step);
    const weights = lagrange(atMs / NODE_STEP_MS - step);
    const moon = blend(nodes, weights, moonOf);
    const earth = blend(nodes, weights, earthOf);
    const speed = blend(nodes, weights, speedOf);
    return {
      moon: new Vector(moon.x, moon.y, moon.z, time),
      earth: new StateVector(earth.x, earth.y, earth.z, speed.x, speed.y, speed.z, time),
      toDate: new RotationMatrix([
        listed(blend(nodes, weights, firstRowOf)),
        listed(blend(nodes, weights, secondRowOf)),
        listed(blend(nodes, weights, thirdRowOf)),
      ]),
    };
  }

  /** The three nodes before an instant and the three after. */
  #around(step: number): Six<Node> {
    if (this.#between?.step === step) return this.#between.nodes;
    const at = (offset: number): Node => this.#node(step + offset);
    const nodes: Six<Node> = { a: at(-2), b: at(-1), c: at(0), d: at(1), e: at(2), f: at(3) };
    this.#between = { step, nodes };
    return nodes;
  }

  #node(step: number): Node {
    const known = this.#nodes.get(step);
    if (known) return known;
    if (this.#nodes.size >= NODES_KEPT) this.#nodes.clear();
    const time = new AstroTime(new Date(step * NODE_STEP_MS));
    const moon = GeoMoon(time);
    const earth = HelioState(Body.Earth, time);
    const { rot } = Rotation_EQJ_EQD(time);
    const row = (index: number): Triple => {
      const own = itemAt(rot, index);
      return { x: itemAt(own, 0), y: itemAt(own, 1), z: itemAt(own, 2) };
    };
    const node: Node = {
      moon: { x: moon.x, y: moon.y, z: moon.z },
      earth: { x: earth.x, y: earth.y, z: earth.z },
      speed: { x: earth.vx, y: earth.vy, z: earth.vz },
      rows: { first: row(0), second: row(1), third: row(2) },
    };
    this.#nodes.set(step, node);
    return node;
  }
}

const moonOf = (node: Node): Triple => node.moon;
const earthOf = (node: Node): Triple => node.earth;
const speedOf = (node: Node): Triple => node.speed;
const firstRowOf = (node: Node): Triple => node.rows.first;
const secondRowOf = (node: Node): Triple => node.rows.second;
const thirdRowOf = (node: Node): Triple => node.rows.third;
const listed = ({ x, y, z }: Triple): number[] => [x, y, z];

function blend(nodes: Six<Node>, weights: Six<number>, part: (node: Node) => Triple): Triple {
  const a = part(nodes.a);
  const b = part(nodes.b);
  const c = part(nodes.c);
  const d = part(nodes.d);
  const e = part(nodes.e);
  const f = part(nodes.f);
  return {
    x: weights.a * a.x + weights.b * b.x + weights.c * c.x + weights.d * d.x + weights.e * e.x + weights.f * f.x,
    y: weights.a * a.y + weights.b * b.y + weights.c * c.y + weights.d * d.y + weights.e * e.y + weights.f * f.y,
    z: weights.a * a.z + weights.b * b.z + weights.c * c.z + weights.d * d.z + weights.e * e.z + weights.f * f.z,
  };
}

/** Weights of the nodes at −2 … 3 for a place between 0 and 1 (Lagrange). */
function lagrange(u: number): Six<number> {
  const [p, q, r, s, t] = [u + 2, u + 1, u - 1, u - 2, u - 3];
  return {
    a: (-q * u * r * s * t) / 120,
    b: (p * u * r * s * t) / 24,
    c: (-p * q * r * s * t) / 12,
    d: (p * q * u * s * t) / 12,
    e: (-p * q * u * r * t) / 24,
    f: (p * q * u * r * s) / 120,
  };
}
