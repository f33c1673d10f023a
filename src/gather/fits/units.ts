/**
 * Units that a header names beside a number: behind it in the text, or in brackets in the card's comment (FITS Standard
 * 4.0, section 4.3.2).
 */
import type { Meaning } from './keywords.js';

/** What one of each unit is in the unit that the meaning is kept in. Names in lower case. */
type Factors = ReadonlyMap<string, number>;

const SECONDS = factors({
  1: 's sec secs second seconds sek sekunde sekunden segundo segundos seconde secondes secondo secondi',
  0.001: 'ms msec msecs millisecond milliseconds millisekunden milisegundos millisecondes millisecondi',
  0.000001: 'us µs μs usec microsecond microseconds',
  60: 'min minute minutes minuten minutos minuti',
  3600: 'h hour hours',
});
const CELSIUS = factors({
  1: 'c °c ºc ℃ ° º degc deg_c deg celsius degrees degree_c degrees_c degree_celsius grad grad_c',
});
const MILLIMETRES = factors({ 1: 'mm', 10: 'cm', 1000: 'm', 25.4: 'in inch inches "' });
const MICROMETRES = factors({ 1: 'um µm μm micron microns micrometer micrometre', 0.001: 'nm', 1000: 'mm' });

const UNITS: Partial<Readonly<Record<Meaning, Factors>>> = {
  exposureSeconds: SECONDS,
  sensorTemperatureC: CELSIUS,
  setTemperatureC: CELSIUS,
  focusTemperatureC: CELSIUS,
  focalLengthMm: MILLIMETRES,
  apertureMm: MILLIMETRES,
  unbinnedPixelSizeUm: MICROMETRES,
  binnedPixelSizeUm: MICROMETRES,
  siteElevationM: factors({ 1: 'm meter metre meters metres' }),
};

const NUMBER_AND_UNIT = /^([+-]?\d+(?:[.,]\d+)?) ?(\D{1,20})$/;
const IN_BRACKETS = /[[(] ?([^\])]{1,20}?) ?[\])]/g;
const IN_WORDS = /\bin ([a-zµμ]{2,20})\b/g;

/** A number with its unit, in that of its meaning; `undefined` for what is none, or in a unit that is not known. */
export function withUnit(text: string, meaning: Meaning): number | undefined {
  const units = UNITS[meaning];
  const [, digits, unit = ''] = (units && NUMBER_AND_UNIT.exec(text)) ?? [];
  const factor = digits === undefined ? undefined : units?.get(asKey(unit));
  return factor === undefined ? undefined : inUnit(Number(digits?.replace(',', '.')), factor);
}

/** A number that a card holds alone, in the unit of its meaning, by the unit that its comment names. */
export function byRemark(number: number, remark: string, meaning: Meaning): number {
  const units = UNITS[meaning];
  if (units === undefined) return number;
  const lower = remark.toLowerCase();
  for (const named of [IN_BRACKETS, IN_WORDS]) {
    for (const [, unit = ''] of lower.matchAll(named)) {
      const factor = units.get(asKey(unit));
      if (factor !== undefined) return inUnit(number, factor);
    }
  }
  return number;
}

/** Thousandths are divided by, for 1/1000 is no number of the machine's. */
function inUnit(number: number, factor: number): number {
  return factor < 1 ? number / Math.round(1 / factor) : number * factor;
}

function asKey(unit: string): string {
  return unit.toLowerCase().replace(/\.$/, '').trim().replace(/ +/g, '_');
}

function factors(names: Readonly<Record<number, string>>): Factors {
  return new Map(
    Object.entries(names).flatMap(([factor, list]) => list.split(' ').map((name) => [name, Number(factor)] as const)),
  );
}
