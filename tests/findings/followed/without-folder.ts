/**
 * A simulated night without its session folder: frames, events and samples are handed over as the readers would, which
 * with the writing took a third of the time. That they read what was written is shown by tests/sessions.
 */
import { parseRig } from '../../../src/config/index.js';
import { sessionOf, type Session } from '../../../src/gather/index.js';
import { lineTimesOf, type GuidingSeries } from '../../../src/model/index.js';
import { eventsOf, headerOf } from '../../support/nights/night-of.js';
import type { Scenario } from '../../support/generator/scenario.js';
import { simulate } from '../../support/generator/simulate.js';
import type { Simulation } from '../../support/generator/simulation.js';
import { rigYaml } from '../../support/generator/write-session.js';

/** Whether the scenario has nothing that only its files hold. */
export function needsNoFolder({ painter, cards }: Scenario): boolean {
  return painter === undefined && cards === undefined;
}

/** What reading the scenario's folder would give. */
export function sessionOfScenario(scenario: Scenario): Session {
  const simulation = simulate(scenario);
  const frames = simulation.frames
    .filter((frame) => !frame.aborted)
    .map((frame) => {
      const { starCount: _, backgroundAdu: __, ...header } = headerOf(frame, scenario);
      const train = scenario.trains.find(({ id }) => id === frame.train);
      const warmerC = train?.warmerC?.(frame.number) ?? 0;
      return { ...header, sensorTemperatureC: header.sensorTemperatureC + warmerC };
    });
  const events = eventsOf(simulation);
  const { rig } = parseRig('rig.yaml', rigYaml(scenario, 'own', false));
  const logs = { events, lineTimes: lineTimesOf(events), guiding: samplesOf(simulation), inputs: [], warnings: [] };
  return sessionOf(rig, { frames, inputs: [], warnings: [] }, logs);
}

/** To the hundredth, as the log has them. */
function samplesOf({ samples }: Simulation): GuidingSeries | null {
  if (samples.length === 0) return null;
  const rounded = (arcsec: number): number => Number(arcsec.toFixed(2));
  return {
    atMs: Float64Array.from(samples, (s) => s.atMs),
    raArcsec: Float64Array.from(samples, (s) => rounded(s.ra)),
    decArcsec: Float64Array.from(samples, (s) => rounded(s.dec)),
    snr: new Float64Array(samples.length).fill(NaN),
    sources: [{ file: 'logs/guiding.csv', line: 2 }],
  };
}
