/**
 * Every light of a night laid on the reference of its field.
 */
import { groupBy, type FrameShift, type RegisteredFrames } from '../../model/index.js';
import { registerFrames, sensorFixed, type StarList, starListOf } from '../registration/index.js';
import { groupsOf, type LightGroup, type MeasuredLight, toRegister } from './lights.js';

/** A group of lights, registered. */
export interface RegisteredGroup extends LightGroup, RegisteredFrames {
  /** The stars of one of its frames, without what stays on the sensor. */
  readonly starsOf: (frame: string) => StarList;
}

/** The lights of a night, registered. */
export interface RegisteredLights {
  /** The largest groups first. */
  readonly groups: readonly RegisteredGroup[];
  /** By frame id: how it lies on its reference, and the reference's id. */
  readonly shifts: ReadonlyMap<string, { readonly shift: FrameShift; readonly reference: string }>;
}

/** Registers a night's lights. What stays on a sensor is told over all targets of its train. */
export function registerLights(lights: readonly MeasuredLight[]): RegisteredLights {
  const groups = [...groupBy(groupsOf(lights), ({ train, width, height }) => `${width}×${height} ${train}`).values()]
    .flatMap((own) => {
      const fixed = sensorFixed(own.flatMap((group) => group.lights.map(toRegister)));
      return own.map((group): RegisteredGroup => {
        const frames = new Map(group.lights.map((light) => [light.frame.id, toRegister(light)]));
        return {
          ...group,
          ...registerFrames([...frames.values()], group, fixed),
          starsOf: (id) => starListOf(frames.get(id)?.stars ?? [], fixed),
        };
      });
    })
    .sort((a, b) => b.lights.length - a.lights.length);
  const shifts = groups.flatMap(({ fields }) =>
    fields.flatMap(({ reference, frames }) => frames.map(({ key, shift }) => [key, { shift, reference }] as const)),
  );
  return { groups, shifts: new Map(shifts) };
}
