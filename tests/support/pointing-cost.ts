/** What registration and all that is read from it cost once a night's stars are measured: `node bench/pointing/run.mjs`. */
import { relativeFlux } from '../../src/stars/index.js';
import { registerLights } from '../../src/stars/pointing/index.js';
import { drawnLights, read } from '../stars/pair/drawn-lights.js';

/** Milliseconds a frame, of one core. */
export interface PointingCost {
  readonly frames: number;
  readonly registration: number;
  /** Registration, the trains on each other, drift, flexure, dithers and rotation. */
  readonly pointing: number;
  /** Relative flux by matched stars. */
  readonly flux: number;
}

/** Medians of some runs over a drawn night of two trains; the first run warms up and counts for nothing. */
export function pointingCost(hours: number, runs: number): PointingCost {
  const plan = { seed: 21, hours, flexure: { x: 2, y: 1 }, rotationDegPerHour: 0.01, every: 3, subSeconds: 170 };
  const { lights, moves } = drawnLights(plan);
  const registered = registerLights(lights);
  const list = lights.map(({ frame, measured }) => ({
    list: measured.list,
    shift: registered.shifts.get(frame.id)?.shift ?? null,
  }));
  const per = (work: () => unknown): number => {
    const times = Array.from({ length: runs + 1 }, () => {
      // Processor time, so that other work on the machine counts for neither run.
      const from = process.cpuUsage();
      work();
      const { user, system } = process.cpuUsage(from);
      return (user + system) / 1000 / lights.length;
    });
    return times.slice(1).sort((a, b) => a - b)[runs >> 1] ?? NaN;
  };
  return {
    frames: lights.length,
    registration: per(() => registerLights(lights)),
    pointing: per(() => read(lights, moves)),
    flux: per(() => relativeFlux(list.slice(0, lights.length / 2))) * 2,
  };
}
