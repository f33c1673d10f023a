/**
 * Units stated next to a number in a header: after it in the text, or in brackets in the card's comment (FITS Standard
 * 4.0, section 4.3.2).
 */
import type { Meaning } from './keywords.js';

/** What one of each unit is in the unit that the meaning is kept in, and its names in lower case. */
type Units = Readonly<Record<number, string>>;

const SECONDS: Units = {
  1: 's sec secs second seconds sek sekunde sekunden segundo segundos seconde secondes secondo secondi',
  0.001: 'ms msec msecs millisecond milliseconds millisekunden milisegundos millisecondes millisecondi',
  0.000001: 'us µs μs usec microsecond microseconds',
  60: 'min minute minutes minuten minutos minuti',
  3600: 'h hour hours',
};
const CELSIUS: Units = {
  1: 'c °c ºc ℃ ° º degc deg_c deg celsius degrees degree_c degrees_c degree_celsius grad grad_c',
};
const MILLIMETRES: Units = { 1: 'mm', 10: 'cm', 1000: 'm', 25.4: 'in inch inches "' };
const MICROMETRES: Units = { 1: 'um µm μm micron microns micrometer micrometre', 0.001: 'nm', 1000: 'mm' };

const UNITS: Partial<Readonly<Record<Meaning, Units>>> = {
  exposureSeconds: SECONDS,
  sensorTemperatureC: CELSIUS,
  setTemperatureC: CELSIUS,
  focusTemperatureC: CELSIUS,
  focalLengthMm: MILLIMETRES,
  apertureMm: MILLIMETRES,
  unbinnedPixelSizeUm: MICROMETRES,
  binnedPixelSizeUm: MICROMETRES,
  rightAscension: { 1: 'deg degree degrees °', 15: 'h hr hrs hour hours' },
  siteElevationM: { 1: 'm meter metre meters metres' },
};

const NUMBER_AND_UNIT = /^([+-]?\d+(?:[.,]\d+)?) ?(\D{1,20})$/;
const IN_BRACKETS = /[[(] ?([^\])]{1,20}?) ?[\])]/g;
const IN_WORDS = /\bin ([a-zµμ]{2,20})\b/g;
/** Text before a unit in a comment. Most comments have none, and need no expression compiled. */
const BEFORE_UNIT = ['[', '(', 'in '];

/** A number with its unit, converted to that of its meaning; `undefined` if it is not one, or for an unknown unit. */
export function withUnit(text: string, meaning: Meaning): number | undefined {
  const units = UNITS[meaning];
  const [, digits, unit = ''] = (units && NUMBER_AND_UNIT.exec(text)) ?? [];
  const factor = digits === undefined ? undefined : factorOf(unit, units);
  return factor === undefined ? undefined : inUnit(Number(digits?.replace(',', '.')), factor);
}

/** For each meaning the last comment requested, and the conversion factor of its unit: those of a night repeat. */
const lastRead = new Map<Meaning, { readonly remark: string; readonly factor: number }>();

/** A bare number in a card, converted to the unit of its meaning from the unit named by its comment. */
export function byRemark(number: number, remark: string, meaning: Meaning): number {
  let known = lastRead.get(meaning);
  if (known?.remark !== remark) {
    known = { remark, factor: factorIn(remark, UNITS[meaning]) };
    lastRead.set(meaning, known);
  }
  return inUnit(number, known.factor);
}

function factorIn(remark: string, units: Units | undefined): number {
  const lower = remark.toLowerCase();
  if (!BEFORE_UNIT.some((sign) => lower.includes(sign))) return 1;
  for (const named of [IN_BRACKETS, IN_WORDS]) {
    for (const [, unit = ''] of lower.matchAll(named)) {
      const factor = factorOf(unit, units);
      if (factor !== undefined) return factor;
    }
  }
  return 1;
}

/** Thousandths are divided by, for 1/1000 is no number of the machine's. */
function inUnit(number: number, factor: number): number {
  return factor < 1 ? number / Math.round(1 / factor) : number * factor;
}

function factorOf(unit: string, units: Units = {}): number | undefined {
  const name = unit.toLowerCase().replace(/\.$/, '').trim().replace(/ +/g, '_');
  const [factor] = Object.entries(units).find(([, names]) => names.split(' ').includes(name)) ?? [];
  return factor === undefined ? undefined : Number(factor);
}
