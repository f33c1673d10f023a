import type { LogFormat } from './corpus.js';
import type { Happening } from './corpus-night.js';
import { localParts, utcParts } from './corpus-stamps.js';

type Wordings = Partial<Record<Happening['event'], (h: Happening) => string>>;

function pick<T>(items: readonly T[], random: () => number): T {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new RangeError('nothing to pick from');
  return item;
}

/** How long an ended thing took, seconds. */
function took(h: Happening): number {
  return (h.atMs - (h.beganMs ?? h.atMs)) / 1000;
}

const bracketStamp = (atMs: number): string => {
  const t = localParts(atMs);
  return `[${t.year}-${t.month}-${t.day} ${t.hour}:${t.minute}:${t.second}.${t.ms}]`;
};
const BRACKET_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `<info> camera: exposure #${h.number} started, ${h.seconds} s, filter ${h.filter}, target "${h.target}"`,
  'exposure-end': (h) => `<info> camera: exposure #${h.number} complete`,
  'exposure-abort': (h) => `<warn> camera: exposure #${h.number} aborted`,
  'frame-saved': (h) => `<info> disk: saved ${h.file}`,
  'dither-begin': (h) => `<info> mount: dither of ${h.pixels} px started`,
  'dither-end': () => '<info> mount: dither done',
  'settling-begin': () => '<info> guider: settling',
  'settling-end': () => '<info> guider: settled',
  'focus-begin': (h) => `<info> focuser: focus run started (${h.why})`,
  'focus-end': (h) => `<info> focuser: focus run finished, size ${h.sizeBefore} -> ${h.sizeAfter} px at ${h.position}`,
  'filter-begin': (h) => `<info> wheel: moving to filter ${h.to}`,
  'filter-end': (h) => `<info> wheel: filter ${h.to} in place`,
  'slew-begin': (h) => `<info> mount: slew to "${h.target}" started`,
  'slew-end': () => '<info> mount: slew complete',
  'centre-begin': () => '<info> mount: centering started',
  'centre-end': () => '<info> mount: centering complete',
  'flip-begin': () => '<info> mount: meridian flip started',
  'flip-end': () => '<info> mount: meridian flip complete',
  'guiding-begin': () => '<info> guider: guiding started',
  'guiding-end': () => '<info> guider: guiding stopped',
  'guiding-rest-begin': () => '<info> guider: guiding paused',
  'guiding-rest-end': () => '<info> guider: guiding resumed',
  'star-gap-begin': () => '<warn> guider: guide star lost',
  'star-gap-end': () => '<info> guider: guide star found again',
  'hold-begin': (h) => `<warn> safety: unsafe, ${h.why}`,
  'hold-end': () => '<info> safety: safe again',
  cooler: (h) => `<debug> camera: sensor ${h.temperature} C, set ${h.setpoint} C`,
};

/** Bracketed local stamps with levels and sources. */
export const BRACKETED: LogFormat = {
  name: 'bracketed',
  head: ['*** log opened ***', ''],
  print: (h) => {
    const words = BRACKET_WORDS[h.event];
    return words === undefined ? null : `${bracketStamp(h.atMs)} ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${bracketStamp(atMs)} ${pick(
      [
        `<debug> guider: rms ${random().toFixed(2)} px over the last minute`,
        `<debug> focuser: temperature ${(8 + random()).toFixed(1)} C`,
        `<debug> network: ping ${Math.floor(random() * 90)} ms`,
        '<debug> wheel: 7 filters known',
        `<debug> weather: wind ${(random() * 6).toFixed(1)} m/s, cloud cover ${Math.floor(random() * 20)} %`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

const ISO_WORDS: Wordings = {
  'exposure-begin': (h) => `EXPOSURE_START;camera;${h.seconds};${h.filter};${h.target}`,
  'exposure-end': (h) => `EXPOSURE_END;camera;${h.seconds};;`,
  'exposure-abort': () => 'EXPOSURE_ABORT;camera;;;',
  'frame-saved': (h) => `FRAME_WRITTEN;store;${h.file};;`,
  'dither-ready': () => 'DITHER_READY;cycle;;;',
  'dither-begin': (h) => `DITHER_START;mount;${h.pixels};;`,
  'dither-end': () => 'DITHER_END;mount;;;',
  'settling-begin': () => 'SETTLE_START;guide;;;',
  'settling-end': () => 'SETTLE_END;guide;ok;;',
  'focus-begin': () => 'AUTOFOCUS_START;focus;;;',
  'focus-end': (h) => `AUTOFOCUS_END;focus;${h.sizeAfter};${h.position};`,
  'filter-begin': (h) => `FILTER_CHANGE_START;wheel;${h.to};;`,
  'filter-end': (h) => `FILTER_CHANGE_END;wheel;${h.to};;`,
  'slew-begin': (h) => `SLEW_START;mount;${h.target};;`,
  'slew-end': () => 'SLEW_END;mount;;;',
  'centre-begin': () => 'CENTRE_START;mount;;;',
  'centre-end': () => 'CENTRE_END;mount;;;',
  'flip-begin': () => 'FLIP_START;mount;;;',
  'flip-end': () => 'FLIP_END;mount;;;',
  'guiding-begin': () => 'GUIDING_START;guide;;;',
  'guiding-end': () => 'GUIDING_STOP;guide;;;',
  'guiding-rest-begin': () => 'GUIDING_PAUSE;guide;;;',
  'guiding-rest-end': () => 'GUIDING_RESUME;guide;;;',
  'star-gap-begin': () => 'STAR_LOST;guide;;;',
  'star-gap-end': () => 'STAR_FOUND;guide;;;',
  'hold-begin': (h) => `HOLD_START;roof;${h.why};;`,
  'hold-end': () => 'HOLD_END;roof;;;',
};

/** ISO 8601 in UTC, code, device and values between semicolons, no header row. */
export const ISO_CODES: LogFormat = {
  name: 'iso-codes',
  print: (h) => {
    const words = ISO_WORDS[h.event];
    return words === undefined ? null : `${new Date(h.atMs).toISOString()};${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${new Date(atMs).toISOString()};${pick(
      [
        `SAMPLE;guide;${(random() - 0.5).toFixed(3)};${(random() - 0.5).toFixed(3)};`,
        `RAIL;power;12.${Math.floor(random() * 9)};;`,
        `CLOUD_INDEX;sky;${(random() * 10).toFixed(1)};;`,
      ],
      random,
    )}`,
};

const EPOCH_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `cam shutter open dur=${h.seconds} filt=${h.filter} obj=${String(h.target).replace(' ', '_')}`,
  'exposure-end': () => 'cam shutter closed',
  'exposure-abort': () => 'cam exposure aborted',
  'frame-saved': (h) => `cam wrote file=${h.file}`,
  'dither-begin': (h) => `mnt dither begin px=${h.pixels}`,
  'dither-end': () => 'mnt dither end',
  'settling-begin': () => 'gdr settle begin',
  'settling-end': () => 'gdr settle end ok=1',
  'focus-begin': () => 'foc autofocus begin',
  'focus-end': (h) => `foc autofocus end pos=${h.position} hfr=${h.sizeAfter}`,
  'filter-begin': (h) => `whl filter begin to=${h.to}`,
  'filter-end': () => 'whl filter end',
  'slew-begin': (h) => `mnt slew begin obj=${String(h.target).replace(' ', '_')}`,
  'slew-end': () => 'mnt slew end',
  'centre-begin': () => 'mnt centre begin',
  'centre-end': () => 'mnt centre end',
  'flip-begin': () => 'mnt flip begin',
  'flip-end': () => 'mnt flip end',
  'guiding-begin': () => 'gdr guiding on',
  'guiding-end': () => 'gdr guiding off',
  'guiding-rest-begin': () => 'gdr guiding pause',
  'guiding-rest-end': () => 'gdr guiding resume',
  'star-gap-begin': () => 'gdr star lost',
  'star-gap-end': () => 'gdr star found',
  'hold-begin': (h) => `sky unsafe why=${h.why}`,
  'hold-end': () => 'sky safe',
  cooler: (h) => `cam sensor temp=${h.temperature} set=${h.setpoint}`,
};

/** Seconds since the epoch, terse words, key=value facts. */
export const EPOCH: LogFormat = {
  name: 'epoch',
  print: (h) => {
    const words = EPOCH_WORDS[h.event];
    return words === undefined ? null : `${(h.atMs / 1000).toFixed(3)} ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${(atMs / 1000).toFixed(3)} ${pick(
      [
        `gdr err ra=${(random() - 0.5).toFixed(3)} dec=${(random() - 0.5).toFixed(3)}`,
        `net rtt=${Math.floor(random() * 50)}`,
        `foc temp=${(7 + random()).toFixed(2)}`,
      ],
      random,
    )}`,
};

const CSV_WORDS: Wordings = {
  'exposure-begin': (h) => `Cámara;Exposición iniciada;${h.seconds},0;${h.filter};${h.target}`,
  'exposure-end': (h) => `Cámara;Exposición terminada;${took(h).toFixed(1).replace('.', ',')};;`,
  'exposure-abort': () => 'Cámara;Exposición abortada;;;',
  'frame-saved': (h) => `Disco;Imagen guardada;;;${h.file}`,
  'dither-begin': (h) => `Montura;Dither iniciado;${String(h.pixels).replace('.', ',')};;`,
  'dither-end': () => 'Montura;Dither terminado;;;',
  'settling-begin': () => 'Guiado;Estabilizando;;;',
  'settling-end': () => 'Guiado;Estabilizado;;;',
  'focus-begin': () => 'Enfocador;Enfoque iniciado;;;',
  'focus-end': (h) => `Enfocador;Enfoque terminado;${String(h.sizeAfter).replace('.', ',')};;${h.position}`,
  'filter-begin': (h) => `Rueda;Cambio de filtro iniciado;;${h.to};`,
  'filter-end': (h) => `Rueda;Cambio de filtro terminado;;${h.to};`,
  'slew-begin': (h) => `Montura;Apuntado iniciado;;;${h.target}`,
  'slew-end': () => 'Montura;Apuntado terminado;;;',
  'centre-begin': () => 'Montura;Centrado iniciado;;;',
  'centre-end': () => 'Montura;Centrado terminado;;;',
  'flip-begin': () => 'Montura;Volteo iniciado;;;',
  'flip-end': () => 'Montura;Volteo terminado;;;',
  'guiding-begin': () => 'Guiado;Guiado iniciado;;;',
  'guiding-end': () => 'Guiado;Guiado detenido;;;',
  'guiding-rest-begin': () => 'Guiado;Guiado en pausa;;;',
  'guiding-rest-end': () => 'Guiado;Guiado reanudado;;;',
  'star-gap-begin': () => 'Guiado;Estrella perdida;;;',
  'star-gap-end': () => 'Guiado;Estrella recuperada;;;',
  'hold-begin': () => 'Cielo;Nubes, no seguro;;;',
  'hold-end': () => 'Cielo;Seguro de nuevo;;;',
};

/** CSV in Spanish: semicolons, decimal commas, date and time in two columns, header row after a preamble, CRLF, Latin-1. */
export const CSV_COMMA: LogFormat = {
  name: 'csv-comma',
  head: ['Registro de Cerro Cierzo', 'Fecha;Hora;Aparato;Acción;Valor;Filtro;Detalle'],
  print: (h) => {
    const words = CSV_WORDS[h.event];
    return words === undefined ? null : `${csvStamp(h.atMs)};${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${csvStamp(atMs)};${pick(
      [
        `Enfocador;Temperatura;${(8 + random()).toFixed(1).replace('.', ',')};;`,
        `Cielo;Viento;${(random() * 7).toFixed(1).replace('.', ',')};;`,
        `Guiado;Error medio;${random().toFixed(2).replace('.', ',')};;`,
      ],
      random,
    )}`,
  encoding: 'latin1',
  ending: '\r\n',
  options: { zone: 'Europe/Madrid' },
};

function csvStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.day}/${t.month}/${t.year};${t.hour}:${t.minute}:${t.second}`;
}

const BLOCK_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `Exposure begins\n    seconds: ${h.seconds}\n    filter: ${h.filter}\n    object: ${h.target}`,
  'exposure-end': (h) => `Exposure ends\n    frame: ${h.number}`,
  'exposure-abort': (h) => `Exposure cancelled\n    frame: ${h.number}`,
  'frame-saved': (h) => `Frame stored\n    path: ${h.file}`,
  'dither-begin': (h) => `Dither begins\n    distance: ${h.pixels} px`,
  'dither-end': () => 'Dither ends',
  'settling-begin': () => 'Settling begins',
  'settling-end': () => 'Settling ends\n    result: ok',
  'focus-begin': (h) => `Focusing begins\n    reason: ${h.why}`,
  'focus-end': (h) => `Focusing ends\n    position: ${h.position}\n    star size: ${h.sizeAfter}`,
  'filter-begin': (h) => `Filter change begins\n    to: ${h.to}`,
  'filter-end': () => 'Filter change ends',
  'slew-begin': (h) => `Slewing begins\n    object: ${h.target}`,
  'slew-end': () => 'Slewing ends',
  'centre-begin': () => 'Centring begins',
  'centre-end': () => 'Centring ends',
  'flip-begin': () => 'Meridian flip begins',
  'flip-end': () => 'Meridian flip ends',
  'guiding-begin': () => 'Guiding begins',
  'guiding-end': () => 'Guiding ends',
  'guiding-rest-begin': () => 'Guiding paused',
  'guiding-rest-end': () => 'Guiding resumed',
  'star-gap-begin': () => 'Guide star lost',
  'star-gap-end': () => 'Guide star recovered',
  'hold-begin': (h) => `Waiting: unsafe\n    cause: ${h.why}`,
  'hold-end': () => 'Safe again, going on',
};

/** Entries of several lines: a stamp with a title, then facts, one a line. */
export const BLOCKS: LogFormat = {
  name: 'blocks',
  print: (h) => {
    const words = BLOCK_WORDS[h.event];
    return words === undefined ? null : `${blockStamp(h.atMs)}  ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${blockStamp(atMs)}  ${pick(
      [
        `Report\n    wind: ${(random() * 8).toFixed(1)} m/s\n    dew point: ${(random() * 5).toFixed(1)} C`,
        `Report\n    free space: ${Math.floor(random() * 900)} GB`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function blockStamp(atMs: number): string {
  const t = utcParts(atMs);
  return `${t.year}/${t.month}/${t.day} ${t.hour}:${t.minute}:${t.second} UTC`;
}

const SENTENCE_WORDS: Wordings = {
  'exposure-begin': (h) =>
    `the camera began an exposure of ${h.seconds} seconds on ${h.target} through the ${h.filter} filter.`,
  'exposure-end': () => 'the exposure ended.',
  'exposure-abort': () => 'the exposure was aborted.',
  'frame-saved': (h) => `the frame was saved as ${h.file}.`,
  'dither-begin': (h) => `a dither of ${h.pixels} pixels began.`,
  'dither-end': () => 'the dither was finished.',
  'settling-begin': () => 'the guider started to settle.',
  'settling-end': () => 'the guider had settled.',
  'focus-begin': () => 'the focuser started focusing.',
  'focus-end': (h) => `focusing was finished at position ${h.position} with stars of ${h.sizeAfter} pixels.`,
  'filter-begin': (h) => `the wheel started to change the filter to ${h.to}.`,
  'filter-end': () => 'the filter change was finished.',
  'slew-begin': (h) => `the mount started slewing to ${h.target}.`,
  'slew-end': () => 'the slew was finished.',
  'centre-begin': () => 'the mount started centring.',
  'centre-end': () => 'centring was finished.',
  'flip-begin': () => 'the meridian flip began.',
  'flip-end': () => 'the meridian flip was finished.',
  'guiding-begin': () => 'guiding was started.',
  'guiding-end': () => 'guiding was stopped.',
  'guiding-rest-begin': () => 'guiding was paused.',
  'guiding-rest-end': () => 'guiding was resumed.',
  'star-gap-begin': () => 'the guide star was lost.',
  'star-gap-end': () => 'the guide star was found again.',
  'hold-begin': (h) => `imaging was halted, conditions being unsafe (${h.why}).`,
  'hold-end': () => 'conditions were safe again.',
};

/** Sentences with the time of day alone; the date stands in the first line. */
export const SENTENCES: LogFormat = {
  name: 'sentences',
  head: ['Diary of the night of 14 October 2026, Cierzo Hill'],
  print: (h) => {
    const words = SENTENCE_WORDS[h.event];
    return words === undefined ? null : `At ${sentenceStamp(h.atMs)} ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `At ${sentenceStamp(atMs)} ${pick(
      [
        `the wind blew at ${(random() * 7).toFixed(1)} m/s.`,
        `the humidity was ${Math.floor(50 + random() * 40)} percent.`,
        `a guide correction of ${Math.floor(random() * 300)} ms was sent.`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function sentenceStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.hour}:${t.minute}:${t.second}`;
}

const GERMAN_WORDS: Wordings = {
  'exposure-begin': (h) => `Kamera: Belichtung gestartet (${h.seconds} s, Filter ${h.filter}, ${h.target})`,
  'exposure-end': () => 'Kamera: Belichtung beendet',
  'exposure-abort': () => 'Kamera: Belichtung abgebrochen',
  'frame-saved': (h) => `Ablage: Bild gespeichert: ${h.file}`,
  'dither-begin': (h) => `Montierung: Dithern um ${String(h.pixels).replace('.', ',')} px begonnen`,
  'dither-end': () => 'Montierung: Dithern beendet',
  'settling-begin': () => 'Nachführung: Beruhigung begonnen',
  'settling-end': () => 'Nachführung: Beruhigung beendet',
  'focus-begin': () => 'Fokussierer: Autofokus gestartet',
  'focus-end': (h) => `Fokussierer: Autofokus beendet, Position ${h.position}`,
  'filter-begin': (h) => `Filterrad: Filterwechsel zu ${h.to} begonnen`,
  'filter-end': () => 'Filterrad: Filterwechsel beendet',
  'slew-begin': (h) => `Montierung: Schwenk zu ${h.target} begonnen`,
  'slew-end': () => 'Montierung: Schwenk beendet',
  'centre-begin': () => 'Montierung: Zentrierung begonnen',
  'centre-end': () => 'Montierung: Zentrierung beendet',
  'flip-begin': () => 'Montierung: Meridianwechsel begonnen',
  'flip-end': () => 'Montierung: Meridianwechsel beendet',
  'guiding-begin': () => 'Nachführung: Guiding gestartet',
  'guiding-end': () => 'Nachführung: Guiding gestoppt',
  'guiding-rest-begin': () => 'Nachführung: Guiding pausiert',
  'guiding-rest-end': () => 'Nachführung: Guiding fortgesetzt',
  'star-gap-begin': () => 'Nachführung: Leitstern verloren',
  'star-gap-end': () => 'Nachführung: Leitstern wiedergefunden',
  'hold-begin': () => 'Wetter: Wolken, unsicher',
  'hold-end': () => 'Wetter: wieder sicher',
};

/** German, dates with dots. */
export const GERMAN: LogFormat = {
  name: 'german',
  print: (h) => {
    const words = GERMAN_WORDS[h.event];
    return words === undefined ? null : `${germanStamp(h.atMs)} ${words(h)}`;
  },
  chatter: (atMs, random) =>
    `${germanStamp(atMs)} ${pick(
      [
        `Wetter: Wind ${(random() * 7).toFixed(1).replace('.', ',')} m/s`,
        `Kamera: Sensor ${(-10 + random() / 10).toFixed(1).replace('.', ',')} Grad`,
        `Nachführung: Abweichung ${random().toFixed(2).replace('.', ',')} px`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function germanStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.day}.${t.month}.${t.year} ${t.hour}:${t.minute}:${t.second},${t.ms}`;
}

const TOOK_WORDS: Wordings = {
  'exposure-end': (h) => `exposure of ${h.target} in ${h.filter} finished, took ${took(h).toFixed(1)} s`,
  'exposure-abort': (h) => `exposure of ${h.target} in ${h.filter} aborted after ${took(h).toFixed(1)} s`,
  'frame-saved': (h) => `image written to ${h.file}`,
  'dither-end': (h) => `dither finished, took ${took(h).toFixed(1)} s`,
  'settling-end': (h) => `settling finished, took ${took(h).toFixed(1)} s`,
  'focus-end': (h) => `autofocus finished, took ${took(h).toFixed(1)} s, position ${h.position}`,
  'filter-end': (h) => `filter change to ${h.to} finished, took ${took(h).toFixed(1)} s`,
  'slew-end': (h) => `slew to ${h.target} finished, took ${took(h).toFixed(1)} s`,
  'centre-end': (h) => `centering on ${h.target} finished, took ${took(h).toFixed(1)} s`,
  'flip-end': (h) => `meridian flip finished, took ${took(h).toFixed(1)} s`,
  'guiding-begin': () => 'guiding started',
  'guiding-end': () => 'guiding stopped',
  'star-gap-begin': () => 'guide star lost',
  'star-gap-end': () => 'guide star reacquired',
  'hold-begin': (h) => `paused because of ${h.why}, not safe`,
  'hold-end': () => 'safe to continue',
};

/** Ends alone, each with how long the thing took; time of day, the date in the file's name. */
export const TOOK: LogFormat = {
  name: 'took-2026-10-14',
  print: (h) => {
    const words = TOOK_WORDS[h.event];
    return words === undefined ? null : `${tookStamp(h.atMs)} (heron) ${words(h)}`;
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
    `${tookStamp(atMs)} (heron) ${pick(
      [
        `download took ${(1 + random()).toFixed(2)} s`,
        `guide rms ${random().toFixed(2)} px`,
        `focuser at ${(8 + random()).toFixed(1)} C`,
      ],
      random,
    )}`,
  options: { zone: 'Europe/Madrid' },
};

function tookStamp(atMs: number): string {
  const t = localParts(atMs);
  return `${t.hour}:${t.minute}:${t.second},${t.ms}`;
}

const RELATIVE_WORDS: Wordings = {
  'exposure-begin': (h) => `CAMERA\tEXPOSE BEGIN\t${h.seconds}\t${h.filter}`,
  'exposure-end': () => 'CAMERA\tEXPOSE END\t\t',
  'exposure-abort': () => 'CAMERA\tEXPOSE ABORT\t\t',
  'frame-saved': (h) => `CAMERA\tFILE SAVED\t${h.file}\t`,
  'dither-begin': (h) => `MOUNT\tDITHER BEGIN\t${h.pixels}\t`,
  'dither-end': () => 'MOUNT\tDITHER END\t\t',
  'settling-begin': () => 'GUIDER\tSETTLE BEGIN\t\t',
  'settling-end': () => 'GUIDER\tSETTLE END\t\t',
  'focus-begin': () => 'FOCUSER\tFOCUS BEGIN\t\t',
  'focus-end': (h) => `FOCUSER\tFOCUS END\t${h.position}\t`,
  'filter-begin': (h) => `WHEEL\tFILTER BEGIN\t${h.to}\t`,
  'filter-end': () => 'WHEEL\tFILTER END\t\t',
  'slew-begin': (h) => `MOUNT\tSLEW BEGIN\t${h.target}\t`,
  'slew-end': () => 'MOUNT\tSLEW END\t\t',
  'centre-begin': () => 'MOUNT\tCENTER BEGIN\t\t',
  'centre-end': () => 'MOUNT\tCENTER END\t\t',
  'flip-begin': () => 'MOUNT\tFLIP BEGIN\t\t',
  'flip-end': () => 'MOUNT\tFLIP END\t\t',
  'guiding-begin': () => 'GUIDER\tGUIDE BEGIN\t\t',
  'guiding-end': () => 'GUIDER\tGUIDE END\t\t',
  'guiding-rest-begin': () => 'GUIDER\tGUIDE PAUSE\t\t',
  'guiding-rest-end': () => 'GUIDER\tGUIDE RESUME\t\t',
  'star-gap-begin': () => 'GUIDER\tSTAR LOST\t\t',
  'star-gap-end': () => 'GUIDER\tSTAR FOUND\t\t',
  'hold-begin': (h) => `SKY\tUNSAFE\t${h.why}\t`,
  'hold-end': () => 'SKY\tSAFE\t\t',
};

const RELATIVE_BASE_MS = Date.UTC(2026, 9, 14, 18, 30);

/** Tabs, and seconds since the time that the first line states. */
export const RELATIVE: LogFormat = {
  name: 'relative',
  head: ['# seconds count from 2026-10-14 18:30:00 UTC'],
  print: (h) => {
    const words = RELATIVE_WORDS[h.event];
    return words === undefined ? null : `+${relativeStamp(h.atMs)}\t${words(h)}`;
  },
  chatter: (atMs, random) =>
    `+${relativeStamp(atMs)}\t${pick(
      [
        `GUIDER\tERROR\t${(random() - 0.5).toFixed(2)}\t${(random() - 0.5).toFixed(2)}`,
        `POWER\tVOLTS\t12.${Math.floor(random() * 9)}\t`,
      ],
      random,
    )}`,
};

function relativeStamp(atMs: number): string {
  return ((atMs - RELATIVE_BASE_MS) / 1000).toFixed(3).padStart(9, '0');
}
