import type { LogFormat } from './corpus.js';
import type { Happening } from './corpus-night.js';
import { localParts } from './corpus-stamps.js';

type Wordings = Partial<Record<Happening['event'], (h: Happening) => string>>;

function pick<T>(items: readonly T[], random: () => number): T {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new RangeError('nothing to pick from');
  return item;
}

function took(h: Happening): string {
  return ((h.atMs - (h.beganMs ?? h.atMs)) / 1000).toFixed(1);
}

const DASH_WORDS: Wordings = {
  'exposure-begin': (h) => `imager --- Shutter opened, ${h.filter}, ${h.seconds} sec, object ${h.target}`,
  'exposure-end': () => 'imager --- Shutter closed',
  'exposure-abort': () => 'imager --- Exposure aborted by safety monitor',
  'frame-saved': (h) => `imager --- New file written: ${h.file}`,
  'dither-begin': (h) => `mount --- Starting dither, ${h.pixels} px`,
  'dither-end': () => 'mount --- Dither completed',
  'settling-begin': () => 'guide camera --- Waiting for guiding to settle',
  'settling-end': () => 'guide camera --- Guiding has settled',
  'focus-begin': (h) => `focuser --- Starting autofocus, reason: ${h.why}`,
  'focus-end': (h) => `focuser --- Autofocus completed, HFR ${h.sizeBefore} -> ${h.sizeAfter}, position ${h.position}`,
  'filter-begin': (h) => `filter wheel --- Moving to ${h.to}`,
  'filter-end': (h) => `filter wheel --- Arrived at ${h.to}`,
  'slew-begin': (h) => `mount --- Slewing to ${h.target}`,
  'slew-end': (h) => `mount --- Slew to ${h.target} completed`,
  'centre-begin': (h) => `mount --- Starting to centre ${h.target}`,
  'centre-end': (h) => `mount --- Centring of ${h.target} completed`,
  'flip-begin': () => 'mount --- Starting meridian flip',
  'flip-end': () => 'mount --- Meridian flip completed',
  'guiding-begin': () => 'guide camera --- Guiding started',
  'guiding-end': () => 'guide camera --- Guiding stopped',
  'guiding-rest-begin': () => 'guide camera --- Guiding paused',
  'guiding-rest-end': () => 'guide camera --- Guiding resumed',
  'star-gap-begin': () => 'guide camera --- Guide star was lost',
  'star-gap-end': () => 'guide camera --- Guide star is back',
  'hold-begin': (h) => `safety monitor --- Unsafe (${h.why}), everything on hold`,
  'hold-end': () => 'safety monitor --- Safe, resuming',
};

/** Dashes between device and words, a numeric offset after the time. */
export const DASHES: LogFormat = {
  name: 'dashes',
  head: ['=== Cierzo Hill, heron ==='],
  print: (h) => {
    const words = DASH_WORDS[h.event];
    return words === undefined ? null : `${dashStamp(h.atMs)} --- ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${dashStamp(atMs)} --- ${pick(
      [
        `dew heater --- Power ${Math.floor(random() * 100)} %`,
        `guide camera --- Drift ${random().toFixed(2)} px/min`,
        `weather --- Cloud cover ${Math.floor(random() * 30)} %, wind ${(random() * 6).toFixed(1)} m/s`,
      ],
      random,
    )}`,
};

function dashStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.year}-${t.month}-${t.day} ${t.hour}:${t.minute}:${t.second} +0200`;
}

const UHR_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `begann eine Belichtung von ${h.seconds} Sekunden auf ${h.target} mit dem Filter ${h.filter}.`,
  'exposure-end': () => 'war die Belichtung fertig.',
  'exposure-abort': () => 'wurde die Belichtung abgebrochen.',
  'frame-saved': (h) => `wurde das Bild ${h.file} gespeichert.`,
  'dither-begin': (h) => `begann das Dithern um ${h.pixels} Pixel.`,
  'dither-end': () => 'war das Dithern beendet.',
  'settling-begin': () => 'begann die Beruhigung der Nachführung.',
  'settling-end': () => 'war die Beruhigung beendet.',
  'focus-begin': () => 'begann die Fokussierung.',
  'focus-end': (h) => `war die Fokussierung bei Position ${h.position} beendet.`,
  'filter-begin': (h) => `begann der Wechsel zum Filter ${h.to}.`,
  'filter-end': () => 'war der Wechsel des Filters beendet.',
  'slew-begin': (h) => `begann der Schwenk auf ${h.target}.`,
  'slew-end': () => 'war der Schwenk beendet.',
  'centre-begin': () => 'begann die Zentrierung.',
  'centre-end': () => 'war die Zentrierung beendet.',
  'flip-begin': () => 'begann der Umschlag am Meridian.',
  'flip-end': () => 'war der Umschlag beendet.',
  'guiding-begin': () => 'startete das Guiding.',
  'guiding-end': () => 'stoppte das Guiding.',
  'guiding-rest-begin': () => 'wurde das Guiding angehalten.',
  'guiding-rest-end': () => 'wurde das Guiding fortgesetzt.',
  'star-gap-begin': () => 'ging der Leitstern verloren.',
  'star-gap-end': () => 'wurde der Leitstern wieder gefunden.',
  'hold-begin': () => 'wurde das Dach wegen Wolken geschlossen.',
  'hold-end': () => 'wurde das Dach wieder geöffnet.',
};

/** German sentences, with the date in each. */
export const UHR: LogFormat = {
  name: 'uhr',
  print: (h) => {
    const words = UHR_WORDS[h.event];
    return words === undefined ? null : `Am ${uhrStamp(h.atMs)} Uhr ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `Am ${uhrStamp(atMs)} Uhr ${pick(
      [
        `betrug die Feuchte ${Math.floor(50 + random() * 40)} Prozent.`,
        `wehte der Wind mit ${(random() * 7).toFixed(1)} m/s.`,
        `war der Sensor ${(-10 + random() / 10).toFixed(1)} Grad kalt.`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function uhrStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${Number(t.day)}. Oktober ${t.year} um ${t.hour}:${t.minute}:${t.second}`;
}

const QUOTED_WORDS: Wordings = {
  'exposure-begin': (h) => `"exposure","start","${h.target}, ${h.filter}, ${h.seconds} s"`,
  'exposure-end': () => '"exposure","end",""',
  'exposure-abort': () => '"exposure","abort","operator"',
  'frame-saved': (h) => `"image","saved","${h.file}"`,
  'dither-ready': () => '"dither","ready",""',
  'dither-begin': (h) => `"dither","start","${h.pixels}"`,
  'dither-end': () => '"dither","end",""',
  'settling-begin': () => '"settle","start",""',
  'settling-end': () => '"settle","end","ok"',
  'focus-begin': (h) => `"focus","start","${h.why}"`,
  'focus-end': (h) => `"focus","end","${h.position}"`,
  'filter-begin': (h) => `"filter","start","${h.to}"`,
  'filter-end': (h) => `"filter","end","${h.to}"`,
  'slew-begin': (h) => `"slew","start","${h.target}"`,
  'slew-end': () => '"slew","end",""',
  'centre-begin': () => '"centre","start",""',
  'centre-end': () => '"centre","end",""',
  'flip-begin': () => '"flip","start",""',
  'flip-end': () => '"flip","end",""',
  'guiding-begin': () => '"guiding","start",""',
  'guiding-end': () => '"guiding","stop",""',
  'guiding-rest-begin': () => '"guiding","pause",""',
  'guiding-rest-end': () => '"guiding","resume",""',
  'star-gap-begin': () => '"star","lost",""',
  'star-gap-end': () => '"star","found",""',
  'hold-begin': (h) => `"hold","start","${h.why}"`,
  'hold-end': () => '"hold","end",""',
};

/** Quoted CSV with milliseconds since the epoch. */
export const QUOTED: LogFormat = {
  name: 'quoted',
  head: ['"ms","subject","action","detail"'],
  print: (h) => {
    const words = QUOTED_WORDS[h.event];
    return words === undefined ? null : `${h.atMs},${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${atMs},${pick(
      [`"error","ra","${(random() - 0.5).toFixed(2)}"`, `"volts","main","12.${Math.floor(random() * 9)}"`],
      random,
    )}`,
};

const DUREE_WORDS: Wordings = {
  'exposure-end': (h) => `pose terminée, durée ${took(h)} s, filtre ${h.filter}, cible ${h.target}`,
  'exposure-abort': (h) => `pose interrompue, durée ${took(h)} s`,
  'frame-saved': (h) => `image enregistrée ${h.file}`,
  'dither-end': (h) => `dithering terminé, durée ${took(h)} s`,
  'settling-end': (h) => `stabilisation terminée, durée ${took(h)} s`,
  'focus-end': (h) => `mise au point terminée, durée ${took(h)} s, position ${h.position}`,
  'filter-end': (h) => `filtre ${h.to} en place, durée ${took(h)} s`,
  'slew-end': (h) => `pointage de ${h.target} terminé, durée ${took(h)} s`,
  'centre-end': (h) => `centrage terminé, durée ${took(h)} s`,
  'flip-end': (h) => `retournement terminé, durée ${took(h)} s`,
  'guiding-begin': () => 'guidage démarré',
  'guiding-end': () => 'guidage arrêté',
  'guiding-rest-begin': () => 'guidage suspendu',
  'guiding-rest-end': () => 'guidage repris',
  'star-gap-begin': () => 'étoile guide perdue',
  'star-gap-end': () => 'étoile guide retrouvée',
  'hold-begin': () => 'toit fermé à cause des nuages',
  'hold-end': () => 'toit ouvert',
};

/** French, ends alone with how long the thing took; date and time divided by a slash bar. */
export const DUREE: LogFormat = {
  name: 'duree',
  print: (h) => {
    const words = DUREE_WORDS[h.event];
    return words === undefined ? null : `<${dureeStamp(h.atMs)}> ${words(h)}`;
  },
  derived: [
    'exposure-begin',
    'dither-begin',
    'settling-begin',
    'focus-begin',
    'filter-begin',
    'slew-begin',
    'centre-begin',
    'flip-begin',
  ],
  chatter: (atMs, random) =>
    `<${dureeStamp(atMs)}> ${pick(
      [`transfert en ${(1 + random()).toFixed(2)} s`, `tension ${(12 + random()).toFixed(1)} V`],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function dureeStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.hour}:${t.minute}:${t.second}.${t.ms} ${t.day}-${t.month}-${t.year}`;
}
