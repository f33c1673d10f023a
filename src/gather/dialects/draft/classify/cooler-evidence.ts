import type { EventName } from '../../../../model/index.js';
import { tookUnit } from '../group-names.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';
import { statesTemperature } from './cooling.js';
import { isDegrees } from './degrees.js';

/** Evidence of words that name the cooler, and of those for what is cooled. */
const NAMED_COOLER = 2.7;
const NAMED_SENSOR = 1.2;
/** A sensor of the imaging camera; one of the air or the dew is named by what it measures. */
const SENSOR = wordList(
  'sensor sensore sensors chip ccd cmos matryca matrycy capteur snimac snimace センサー 素子 传感器 芯片 感光元件 센서',
);
/** What a camera says of itself now and then is a reading. */
const CAMERA = wordList('camera* kamera* camara* cam aparat* 相机 相機 カメラ');
/** More of them are readings at intervals, which say nothing of what the cooler does. */
const FEW = 12;
/** Sensors are cooled to this or below, °C. */
const COLD = 0;

/** Whether a line without further words gives the temperature of a cooled sensor: `sensor at -5 °C`. */
function statesSensor(kind: Kind): boolean {
  const words = plainWords(kind.wording);
  if (kind.count > FEW || CAMERA.test(words) || !SENSOR.test(words) || !kind.slots.some(isCelsius)) return false;
  return kind.slots.some(({ type, values }) => type === 'number' && values.some((value) => numberIn(value) <= COLD));
}

/**
 * A cooler has two temperatures, setpoint and actual, or one with its unit, or is named beside one below zero; what has
 * none of these is none.
 */
export function withCooler(kind: Kind, evidence: Map<EventName, number>): void {
  const said = evidence.get('cooler') ?? 0;
  const isNamed = said >= NAMED_COOLER && statesTemperature(kind);
  if (temperaturesIn(kind) < 2 && !kind.slots.some(isCelsius) && !isNamed) evidence.delete('cooler');
  else if (said >= NAMED_SENSOR && said < NAMED_COOLER && statesSensor(kind)) evidence.set('cooler', NAMED_COOLER);
}

const TWO = /^[-+\u2212]?\d+(?:[.,]\d+)?\s*\p{L}?\s*[/|>→]+\s*[-+\u2212]?\d+(?:[.,]\d+)?/u;

/** `task 007`: no quantity is written like this. */
const isNumbering = (values: readonly string[]): boolean => values.some((value) => /^0\d+$/.test(value));

/** The numbers of a kind's lines that may be temperatures: fractions and lengths are not, and `4.0/-10C` is two. */
function temperaturesIn({ slots }: Kind): number {
  return slots.reduce((sum, slot) => {
    const { type, after, values } = slot;
    if (type === 'number') return sum + (after === '%' || isNumbering(values) || tookUnit(slot) !== null ? 0 : 1);
    return sum + (values.length > 0 && values.every((value) => TWO.test(value)) ? 2 : 0);
  }, 0);
}

/** A number with its unit, `-10.0 C`, in the cell or in the column's title. */
function isCelsius({ type, after, before }: Slot): boolean {
  return type === 'number' && (isDegrees(after) || (before[0] !== undefined && isDegrees(before[0])));
}
