import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const MINUTES = 200;
/** A camera whose exposures take five minutes each, a dither after every third. */
const cameraAt = (minute: number): string => {
  const inRound = minute % 17;
  if (minute < 4) return 'reposo';
  if (inRound >= 15) return 'espera dither';
  return `expone ${String(Math.floor(minute / 17) * 3 + Math.floor(inRound / 5) + 1).padStart(3, '0')} Ha 300s`;
};
const mountAt = (minute: number): string => (minute < 3 ? 'apunta' : minute % 17 === 16 ? 'dither' : 'sigue');
const skyAt = (minute: number): string => (minute >= 190 && minute < 194 ? 'espera nubes' : 'bien');

describe('a row a minute with the states of all parts', () => {
  it('tells the next exposure by its number, and a camera and a roof that wait each by its own', async () => {
    const lines = [
      'hora;camara;montura;guiado;techo',
      ...Array.from({ length: MINUTES }, (_, minute) =>
        [
          new Date(T0 + minute * 60_000).toISOString().slice(0, 16).replace('T', ' '),
          cameraAt(minute),
          mountAt(minute),
          minute < 2 ? 'no' : minute % 68 === 30 ? 'en pausa' : 'guía',
          skyAt(minute),
        ].join(';'),
      ),
    ];
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const minutesOf = (event: string): number[] =>
      log.events.filter((one) => one.event === event).map(({ atMs }) => (atMs - T0) / 60_000);
    const changes = Array.from({ length: MINUTES - 1 }, (_, i) => i + 1).filter(
      (minute) => cameraAt(minute) !== cameraAt(minute - 1),
    );
    expect(minutesOf('exposure-begin')).toEqual(changes.filter((minute) => cameraAt(minute).startsWith('expone')));
    expect(minutesOf('exposure-end')).toEqual(changes.filter((minute) => cameraAt(minute - 1).startsWith('expone')));
    expect(minutesOf('dither-ready')).toEqual(changes.filter((minute) => cameraAt(minute).startsWith('espera')));
  });
});
