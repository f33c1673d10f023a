/**
 * Validates the content of a cache file as a measurement: files written by another program, or tampered with, are
 * rejected.
 */
import { isObject, type DoubledStars, type FrameStars, type Star, type StarUncertainties } from '../model/index.js';
import type { FrameMeasurement, StarList } from './types.js';

const MOST_STARS = 1000;
const MOST_SIDE_PX = 1_000_000;
const STAR_FIELDS = [
  'x',
  'y',
  'flux',
  'snr',
  'fwhm',
  'halfFlux',
  'elongation',
  'direction',
] as const satisfies readonly (keyof Star)[];
const MEDIANS = [
  'fwhm',
  'fwhmUncertainty',
  'halfFlux',
  'elongation',
  'direction',
  'agreement',
  'flux',
] as const satisfies readonly (keyof FrameStars)[];
const LEVELS = ['count', 'background', 'noise', 'saturated'] as const satisfies readonly (keyof FrameStars)[];

const UNCERTAINTIES = [
  'halfFlux',
  'direction',
  'background',
  'noise',
  'flux',
] as const satisfies readonly (keyof StarUncertainties)[];

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const isNumberOrNull = (value: unknown): boolean => value === null || isNumber(value);
const isSide = (value: unknown): boolean =>
  Number.isInteger(value) && Number(value) > 0 && Number(value) <= MOST_SIDE_PX;

/** Whether a value is a possible result of measuring a frame. */
export function isMeasurement(value: unknown): value is FrameMeasurement {
  if (!isObject(value)) return false;
  if ('reason' in value) return typeof value.reason === 'string' && value.reason.length <= 1000;
  return isFrameStars(value.stars) && isStarList(value.list);
}

function isFrameStars(value: unknown): value is FrameStars {
  if (!isObject(value) || (value.by !== 'full' && value.by !== 'strips')) return false;
  const { elongationUncertainty = null, doubled, shift, zones = [], zoneUncertainties = [], uncertainties } = value;
  return (
    LEVELS.every((field) => isNumber(value[field])) &&
    MEDIANS.every((field) => isNumberOrNull(value[field])) &&
    isNumberOrNull(elongationUncertainty) &&
    isUncertainties(uncertainties) &&
    (doubled === undefined || isDoubled(doubled)) &&
    // Registration is computed anew for each night.
    shift === null &&
    isZones(zones) &&
    isZones(zoneUncertainties)
  );
}

const DOUBLED = ['x', 'y', 'share', 'significance'] as const satisfies readonly (keyof DoubledStars)[];

function isDoubled(value: unknown): boolean {
  return isObject(value) && DOUBLED.every((field) => isNumber(value[field]));
}

function isZones(value: unknown): boolean {
  return Array.isArray(value) && value.length <= 9 && value.every(isNumberOrNull);
}

function isUncertainties(value: unknown): boolean {
  return isObject(value) && UNCERTAINTIES.every((field) => isNumberOrNull(value[field]));
}

function isStarList(value: unknown): value is StarList {
  return (
    isObject(value) &&
    isSide(value.width) &&
    isSide(value.height) &&
    Array.isArray(value.stars) &&
    value.stars.length <= MOST_STARS &&
    value.stars.every(isStar)
  );
}

function isStar(value: unknown): value is Star {
  return (
    isObject(value) && STAR_FIELDS.every((field) => isNumber(value[field])) && typeof value.saturated === 'boolean'
  );
}
