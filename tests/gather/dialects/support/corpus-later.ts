import type { LogFormat } from './corpus.js';
import type { Happening } from './corpus-night.js';
import { localParts, utcParts } from './corpus-stamps.js';

type Wordings = Partial<Record<Happening['event'], (h: Happening) => string>>;

function pick<T>(items: readonly T[], random: () => number): T {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new RangeError('nothing to pick from');
  return item;
}

const FRENCH_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `Caméra - début de la pose n° ${h.number} : ${h.seconds} s, filtre ${h.filter}, objet ${h.target}`,
  'exposure-end': (h) => `Caméra - fin de la pose n° ${h.number}`,
  'exposure-abort': (h) => `Caméra - pose n° ${h.number} annulée`,
  'frame-saved': (h) => `Disque - image enregistrée : ${h.file}`,
  'dither-begin': (h) => `Monture - début du dithering (${h.pixels} px)`,
  'dither-end': () => 'Monture - fin du dithering',
  'settling-begin': () => 'Guidage - début de la stabilisation',
  'settling-end': () => 'Guidage - fin de la stabilisation',
  'focus-begin': () => 'Mise au point - début',
  'focus-end': (h) => `Mise au point - fin, position ${h.position}`,
  'filter-begin': (h) => `Roue - début du changement de filtre : ${h.to}`,
  'filter-end': () => 'Roue - fin du changement de filtre',
  'slew-begin': (h) => `Monture - début du pointage vers ${h.target}`,
  'slew-end': () => 'Monture - fin du pointage',
  'centre-begin': () => 'Monture - début du centrage',
  'centre-end': () => 'Monture - fin du centrage',
  'flip-begin': () => 'Monture - début du retournement au méridien',
  'flip-end': () => 'Monture - fin du retournement au méridien',
  'guiding-begin': () => 'Guidage - autoguidage démarré',
  'guiding-end': () => 'Guidage - autoguidage arrêté',
  'guiding-rest-begin': () => 'Guidage - autoguidage suspendu',
  'guiding-rest-end': () => 'Guidage - autoguidage repris',
  'star-gap-begin': () => 'Guidage - étoile guide perdue',
  'star-gap-end': () => 'Guidage - étoile guide retrouvée',
  'hold-begin': () => 'Météo - nuages, attente',
  'hold-end': () => "Météo - fin de l'attente",
};

/** French, day first, hours with the letter h. */
export const FRENCH: LogFormat = {
  name: 'french',
  print: (h) => {
    const words = FRENCH_WORDS[h.event];
    return words === undefined ? null : `${frenchStamp(h.atMs)} ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${frenchStamp(atMs)} ${pick(
      [
        `Météo - vent ${(random() * 7).toFixed(1)} m/s`,
        `Caméra - capteur à ${(-10 + random() / 10).toFixed(1)} °C`,
        `Réseau - latence ${Math.floor(random() * 90)} ms`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function frenchStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.day}/${t.month}/${t.year} ${t.hour}h${t.minute}:${t.second}`;
}

const SYSTEM_WORDS: Wordings = {
  'exposure-begin': (h) => `camera[311]: exposing ${h.seconds}s on ${h.target} with ${h.filter}`,
  'exposure-end': () => 'camera[311]: exposure over, reading out',
  'exposure-abort': () => 'camera[311]: exposure interrupted by operator',
  'frame-saved': (h) => `camera[311]: file ${h.file} saved`,
  'dither-ready': () => 'sequencer[290]: ready to dither',
  'dither-begin': (h) => `mount[305]: dithering by ${h.pixels} px`,
  'dither-end': () => 'mount[305]: dithering complete',
  'settling-begin': () => 'guider[320]: waiting to settle',
  'settling-end': () => 'guider[320]: settling complete',
  'focus-begin': () => 'focuser[330]: starting focus sweep',
  'focus-end': (h) => `focuser[330]: focus sweep complete at ${h.position}`,
  'filter-begin': (h) => `wheel[340]: selecting filter ${h.to}`,
  'filter-end': (h) => `wheel[340]: filter ${h.to} selected`,
  'slew-begin': (h) => `mount[305]: slewing to ${h.target}`,
  'slew-end': () => 'mount[305]: slew finished',
  'centre-begin': () => 'mount[305]: begin plate solve and centre',
  'centre-end': () => 'mount[305]: target is centred',
  'flip-begin': () => 'mount[305]: starting meridian flip',
  'flip-end': () => 'mount[305]: meridian flip done',
  'guiding-begin': () => 'guider[320]: start guiding',
  'guiding-end': () => 'guider[320]: stop guiding',
  'guiding-rest-begin': () => 'guider[320]: pause guiding',
  'guiding-rest-end': () => 'guider[320]: resume guiding',
  'star-gap-begin': () => 'guider[320]: lost star',
  'star-gap-end': () => 'guider[320]: star reacquired',
  'hold-begin': (h) => `safety[350]: closing roof, ${h.why}`,
  'hold-end': () => 'safety[350]: roof open again',
  cooler: (h) => `camera[311]: cooler at ${h.temperature} C, target ${h.setpoint} C`,
};

/** The stamp and tag of RFC 3164: month name, day, time, no year; process numbers. */
export const SYSTEM_LOG: LogFormat = {
  name: 'system-2026-10-14',
  print: (h) => {
    const words = SYSTEM_WORDS[h.event];
    return words === undefined ? null : `${systemStamp(h.atMs)} heron ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${systemStamp(atMs)} heron ${pick(
      [
        `guider[320]: offset ${(random() - 0.5).toFixed(2)} ${(random() - 0.5).toFixed(2)}`,
        `disk[101]: ${Math.floor(random() * 900)} GB free`,
        `focuser[330]: drive at ${(8 + random()).toFixed(1)} C`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function systemStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.month === '10' ? 'Oct' : t.month} ${t.day} ${t.hour}:${t.minute}:${t.second}`;
}

const KEY_WORDS: Wordings = {
  'exposure-begin': (h) => `SRC=CAM WHAT=EXPOSURE STATE=STARTED LEN=${h.seconds} FILT=${h.filter} OBJ="${h.target}"`,
  'exposure-end': () => 'SRC=CAM WHAT=EXPOSURE STATE=FINISHED',
  'exposure-abort': () => 'SRC=CAM WHAT=EXPOSURE STATE=ABORTED',
  'frame-saved': (h) => `SRC=CAM WHAT=IMAGE STATE=SAVED PATH=${h.file}`,
  'dither-begin': (h) => `SRC=MNT WHAT=DITHER STATE=STARTED PX=${h.pixels}`,
  'dither-end': () => 'SRC=MNT WHAT=DITHER STATE=FINISHED',
  'settling-begin': () => 'SRC=GDR WHAT=SETTLING STATE=STARTED',
  'settling-end': () => 'SRC=GDR WHAT=SETTLING STATE=FINISHED',
  'focus-begin': () => 'SRC=FOC WHAT=AUTOFOCUS STATE=STARTED',
  'focus-end': (h) => `SRC=FOC WHAT=AUTOFOCUS STATE=FINISHED POS=${h.position}`,
  'filter-begin': (h) => `SRC=WHL WHAT=FILTERCHANGE STATE=STARTED TO=${h.to}`,
  'filter-end': () => 'SRC=WHL WHAT=FILTERCHANGE STATE=FINISHED',
  'slew-begin': (h) => `SRC=MNT WHAT=SLEW STATE=STARTED OBJ="${h.target}"`,
  'slew-end': () => 'SRC=MNT WHAT=SLEW STATE=FINISHED',
  'centre-begin': () => 'SRC=MNT WHAT=CENTERING STATE=STARTED',
  'centre-end': () => 'SRC=MNT WHAT=CENTERING STATE=FINISHED',
  'flip-begin': () => 'SRC=MNT WHAT=MERIDIANFLIP STATE=STARTED',
  'flip-end': () => 'SRC=MNT WHAT=MERIDIANFLIP STATE=FINISHED',
  'guiding-begin': () => 'SRC=GDR WHAT=GUIDING STATE=STARTED',
  'guiding-end': () => 'SRC=GDR WHAT=GUIDING STATE=STOPPED',
  'guiding-rest-begin': () => 'SRC=GDR WHAT=GUIDING STATE=PAUSED',
  'guiding-rest-end': () => 'SRC=GDR WHAT=GUIDING STATE=RESUMED',
  'star-gap-begin': () => 'SRC=GDR WHAT=GUIDESTAR STATE=LOST',
  'star-gap-end': () => 'SRC=GDR WHAT=GUIDESTAR STATE=FOUND',
  'hold-begin': () => 'SRC=WX WHAT=CLOUD STATE=UNSAFE',
  'hold-end': () => 'SRC=WX WHAT=CLOUD STATE=SAFE',
};

/** Upper-case key=value pairs alone, the stamp being one of them. */
export const KEY_VALUES: LogFormat = {
  name: 'key-values',
  print: (h) => {
    const words = KEY_WORDS[h.event];
    return words === undefined ? null : `T=${keyStamp(h.atMs)} ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `T=${keyStamp(atMs)} ${pick(
      [
        `SRC=GDR WHAT=ERROR RA=${(random() - 0.5).toFixed(2)} DEC=${(random() - 0.5).toFixed(2)}`,
        `SRC=WX WHAT=WIND SPEED=${(random() * 7).toFixed(1)}`,
      ],
      random,
    )}`,
};

function keyStamp(atMs: number): string {
  const t = utcParts(atMs);
  return `${t.year}${t.month}${t.day}T${t.hour}${t.minute}${t.second}.${t.ms}Z`;
}

const SPANISH_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `Empieza la exposición ${h.number} de ${h.seconds} s con el filtro ${h.filter} sobre ${h.target}`,
  'exposure-end': (h) => `Acaba la exposición ${h.number}`,
  'exposure-abort': (h) => `Cancelada la exposición ${h.number}`,
  'frame-saved': (h) => `Guardada la toma ${h.file}`,
  'dither-begin': (h) => `Empieza el dither de ${h.pixels} píxeles`,
  'dither-end': () => 'Acaba el dither',
  'settling-begin': () => 'Empieza la estabilización del guiado',
  'settling-end': () => 'Acaba la estabilización del guiado',
  'focus-begin': () => 'Empieza el autoenfoque',
  'focus-end': (h) => `Acaba el autoenfoque en la posición ${h.position}`,
  'filter-begin': (h) => `Empieza el cambio al filtro ${h.to}`,
  'filter-end': (h) => `Acaba el cambio al filtro ${h.to}`,
  'slew-begin': (h) => `Empieza el movimiento a ${h.target}`,
  'slew-end': (h) => `Acaba el movimiento a ${h.target}`,
  'centre-begin': () => 'Empieza el centrado',
  'centre-end': () => 'Acaba el centrado',
  'flip-begin': () => 'Empieza el giro de meridiano',
  'flip-end': () => 'Acaba el giro de meridiano',
  'guiding-begin': () => 'Empieza el guiado',
  'guiding-end': () => 'Acaba el guiado',
  'guiding-rest-begin': () => 'Guiado en pausa',
  'guiding-rest-end': () => 'Guiado reanudado',
  'star-gap-begin': () => 'Perdida la estrella guía',
  'star-gap-end': () => 'Encontrada la estrella guía',
  'hold-begin': () => 'En espera por nubes',
  'hold-end': () => 'Fin de la espera',
};

/** Spanish sentences, UTF-16, twelve-hour times. */
export const SPANISH: LogFormat = {
  name: 'spanish',
  print: (h) => {
    const words = SPANISH_WORDS[h.event];
    return words === undefined ? null : `(${spanishStamp(h.atMs)}) ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `(${spanishStamp(atMs)}) ${pick(
      [
        `Humedad ${Math.floor(50 + random() * 40)} %`,
        `Voltaje ${(12 + random()).toFixed(1)} V`,
        `Corrección de ${Math.floor(random() * 200)} ms`,
      ],
      random,
    )}`,
  encoding: 'utf16le',
  options: { zone: 'Europe/Madrid' },
};

function spanishStamp(atMs: number): string {
  const t = localParts(atMs);
  const hour = Number(t.hour);
  return `${t.year}-${t.month}-${t.day} ${hour % 12 === 0 ? 12 : hour % 12}:${t.minute}:${t.second} ${hour < 12 ? 'AM' : 'PM'}`;
}

const JSON_WORDS: Wordings = {
  'exposure-begin': (h) => `exposing ${h.filter} for ${h.seconds}s (${h.target})`,
  'exposure-end': () => 'exposure finished',
  'exposure-abort': () => 'exposure was cancelled',
  'frame-saved': (h) => `stored ${h.file}`,
  'dither-ready': () => 'ready for dither',
  'dither-begin': (h) => `dithering ${h.pixels} pixels`,
  'dither-end': () => 'dither complete',
  'settling-begin': () => 'settling after dither',
  'settling-end': () => 'settled',
  'focus-begin': (h) => `refocusing because of ${h.why}`,
  'focus-end': (h) => `focus reached at step ${h.position}, fwhm ${h.sizeAfter}`,
  'filter-begin': (h) => `changing filter to ${h.to}`,
  'filter-end': () => 'filter change complete',
  'slew-begin': (h) => `slewing to ${h.target}`,
  'slew-end': () => 'slew complete',
  'centre-begin': () => 'centring on target',
  'centre-end': () => 'target centred',
  'flip-begin': () => 'flipping the mount',
  'flip-end': () => 'flip complete',
  'guiding-begin': () => 'guiding enabled',
  'guiding-end': () => 'guiding disabled',
  'guiding-rest-begin': () => 'guiding paused for flip',
  'guiding-rest-end': () => 'guiding resumed',
  'star-gap-begin': () => 'guide star lost',
  'star-gap-end': () => 'guide star recovered',
  'hold-begin': (h) => `waiting: ${h.why}`,
  'hold-end': () => 'weather is safe, continuing',
};

/** JSON objects with a message inside, one a line. */
export const JSON_MESSAGES: LogFormat = {
  name: 'json-messages',
  print: (h) => {
    const words = JSON_WORDS[h.event];
    return words === undefined
      ? null
      : JSON.stringify({ when: new Date(h.atMs).toISOString(), who: 'heron', says: words(h) });
  },
  chatter: (atMs, random) =>
    JSON.stringify({
      when: new Date(atMs).toISOString(),
      who: 'heron',
      says: pick(
        [
          `guide error ${(random() - 0.5).toFixed(2)} ${(random() - 0.5).toFixed(2)}`,
          `disk has ${Math.floor(random() * 900)} GB left`,
          `sky quality ${(20 + random()).toFixed(2)}`,
        ],
        random,
      ),
    }),
};

const LEVEL_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `INFO  [imaging] Exposure ${h.number}: ${h.seconds} seconds in ${h.filter} of ${h.target} begins`,
  'exposure-end': (h) => `INFO  [imaging] Exposure ${h.number} ends`,
  'exposure-abort': (h) => `ERROR [imaging] Exposure ${h.number} aborted: clouds`,
  'frame-saved': (h) => `INFO  [storage] Wrote ${h.file}`,
  'dither-begin': (h) => `INFO  [mount] Dither by ${h.pixels} px begins`,
  'dither-end': () => 'INFO  [mount] Dither ends',
  'settling-begin': () => 'INFO  [guide] Settling begins',
  'settling-end': () => 'INFO  [guide] Settling ends',
  'focus-begin': () => 'INFO  [focus] Autofocus begins',
  'focus-end': (h) => `INFO  [focus] Autofocus ends, best position ${h.position}, star size ${h.sizeAfter} px`,
  'filter-begin': (h) => `INFO  [wheel] Filter change to ${h.to} begins`,
  'filter-end': (h) => `INFO  [wheel] Filter change to ${h.to} ends`,
  'slew-begin': (h) => `INFO  [mount] Slew to ${h.target} begins`,
  'slew-end': (h) => `INFO  [mount] Slew to ${h.target} ends`,
  'centre-begin': (h) => `INFO  [mount] Centring ${h.target} begins`,
  'centre-end': (h) => `INFO  [mount] Centring ${h.target} ends`,
  'flip-begin': () => 'INFO  [mount] Meridian flip begins',
  'flip-end': () => 'INFO  [mount] Meridian flip ends',
  'guiding-begin': () => 'INFO  [guide] Guiding begins',
  'guiding-end': () => 'INFO  [guide] Guiding ends',
  'guiding-rest-begin': () => 'INFO  [guide] Guiding suspended',
  'guiding-rest-end': () => 'INFO  [guide] Guiding continues',
  'star-gap-begin': () => 'ERROR [guide] Star lost',
  'star-gap-end': () => 'INFO  [guide] Star found',
  'hold-begin': (h) => `ERROR [safety] Unsafe: ${h.why}`,
  'hold-end': () => 'INFO  [safety] Safe',
};

/** The level before the stamp, so that the stamp stands at no fixed place; the date in the file's name. */
export const LEVEL_FIRST: LogFormat = {
  name: 'level-first_20261014',
  print: (h) => {
    const words = LEVEL_WORDS[h.event];
    if (words === undefined) return null;
    const text = words(h);
    return `${text.slice(0, 6).trim()} ${levelStamp(h.atMs)} ${text.slice(6)}`;
  },
  chatter: (atMs, random) =>
    `DEBUG ${levelStamp(atMs)} ${pick(
      [
        `[guide] Pulse ${Math.floor(random() * 300)} ms`,
        `[power] Battery at ${Math.floor(50 + random() * 50)} %`,
        `[focus] Tube at ${(8 + random()).toFixed(1)} C`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function levelStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.hour}:${t.minute}:${t.second}.${t.ms}`;
}
