/** Every light of a night registered to the reference of its field. */
import { groupBy, type FrameShift, type PixelPoint, type RegisteredFrames } from '../../model/index.js';
import {
  type FrameToRegister,
  isAmong,
  registerFrames,
  seenFixed,
  sensorFixed,
  type StarList,
  starListOf,
} from '../registration/index.js';
import { groupsOf, type LightGroup, type MeasuredLight, toRegister } from './lights.js';

/** A group of lights, registered. */
export interface RegisteredGroup extends LightGroup, RegisteredFrames {
  /** Positions on its sensor that are not stars. */
  readonly fixed: readonly PixelPoint[];
  /** The stars of one of its frames, without sensor artefacts. */
  readonly starsOf: (frame: string) => StarList;
}

/** The lights of a night, registered. */
export interface RegisteredLights {
  /** The largest groups first. */
  readonly groups: readonly RegisteredGroup[];
  /** By frame id: its registration, and the reference's id. */
  readonly shifts: ReadonlyMap<string, { readonly shift: FrameShift; readonly reference: string }>;
}

/**
 * Registers a night's lights. Sensor artefacts are detected over all targets of a train; those that only registration
 * reveals are left out in a second round.
 */
export function registerLights(lights: readonly MeasuredLight[]): RegisteredLights {
  const groups = [...groupBy(groupsOf(lights), ({ train, width, height }) => `${width}×${height} ${train}`).values()]
    .flatMap((own) => {
      const fixed = sensorFixed(own.flatMap((group) => group.lights.map(toRegister)));
      const first = own.map((group) => registered(group, fixed));
      const stayed = first.flatMap((group) => seenFixed(group.fields, framesOf(group), group));
      const more = stayed.filter((place) => !isAmong(place, fixed));
      return more.length === 0 ? first : own.map((group) => registered(group, [...fixed, ...more]));
    })
    .sort((a, b) => b.lights.length - a.lights.length);
  const shifts = groups.flatMap(({ fields }) =>
    fields.flatMap(({ reference, frames }) => frames.map(({ key, shift }) => [key, { shift, reference }] as const)),
  );
  return { groups, shifts: new Map(shifts) };
}

function framesOf({ lights }: LightGroup): ReadonlyMap<string, FrameToRegister> {
  return new Map(lights.map((light) => [light.frame.id, toRegister(light)]));
}

function registered(group: LightGroup, fixed: readonly PixelPoint[]): RegisteredGroup {
  const frames = framesOf(group);
  return {
    ...group,
    ...registerFrames([...frames.values()], group, fixed),
    fixed,
    starsOf: (id) => starListOf(frames.get(id)?.stars ?? [], fixed),
  };
}
