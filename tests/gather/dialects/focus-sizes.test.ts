import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

/** Exposures and refocuses of an evening, three of each, in a form of its own. */
function evening(line: (time: string, run: number) => readonly string[]): string[] {
  return ['20', '21', '22'].flatMap((hour, run) => [
    ...line(`2026-10-14 ${hour}:00:00`, run),
    ...[1, 2, 3].map((n) => `2026-10-14 ${hour}:0${n}:30 station temperature ${n + 4}.2`),
  ]);
}

const SIZES = [
  ['3.56', '2.72', '10.7'],
  ['3.41', '2.80', '9.3'],
  ['3.22', '2.83', '8.1'],
] as const;

describe('the sizes of a refocus', () => {
  it('are the older and the newer one, by their order, where a line states two of one unit', () => {
    const { yaml } = drafted(
      evening((time, run) => {
        const [before, after, degrees] = SIZES[run] ?? SIZES[0];
        return [
          `${time} refocus begins`,
          `${time.replace(':00:00', ':01:10')} refocus done at 1121${run}, stars ${before} px before and ${after} px now, ${degrees} degrees`,
        ];
      }),
    );
    expect(yaml).toMatch(
      /stars \(\?<sizeBefore>\[\\d\.\]\+\) px before and \(\?<sizeAfter>\[\\d\.\]\+\) px now, \(\?<temperature>/,
    );
  });

  it('are identified by the names of fields, and a quality figure is not one', () => {
    const { yaml } = drafted(
      evening((time, run) => {
        const [was, is, degrees] = SIZES[run] ?? SIZES[0];
        return [
          `${time} act=refocus state=begin`,
          `${time.replace(':00:00', ':01:10')} act=refocus state=end ok=1 was=${was} is=${is} step=1121${run} degc=${degrees}`,
        ];
      }),
    );
    expect(yaml).toContain(
      String.raw`ok=[\d.]+ was=(?<sizeBefore>[\d.]+) is=(?<sizeAfter>[\d.]+) step=(?<position>[\d.]+) degc=(?<temperature>`,
    );
  });

  it('may stand the other way round', () => {
    const { yaml } = drafted(
      evening((time, run) => {
        const [was, is] = SIZES[run] ?? SIZES[0];
        return [
          `${time} act=refocus state=begin`,
          `${time.replace(':00:00', ':01:10')} act=refocus state=end now=${is} before=${was}`,
        ];
      }),
    );
    expect(yaml).toContain(String.raw`now=(?<sizeAfter>[\d.]+) before=(?<sizeBefore>[\d.]+)`);
  });
});

describe('a filter', () => {
  it('has the name that its wheel gives it, where the field is called so', () => {
    const lines = Array.from({ length: 10 }, (_, n) => n).flatMap((n) => {
      const filter = ['H alpha 5nm', 'O III 5nm', 'S II 5nm'][n % 3];
      const record = (minute: number, what: object): string =>
        JSON.stringify({ at: `2026-10-14T${n + 10}:${String(minute).padStart(2, '0')}:00Z`, ...what });
      return [
        record(0, { was: 'filterrad', phase: 'anfang' }),
        record(1, { was: 'filterrad', phase: 'ende' }),
        record(2, { was: 'belichtung', phase: 'anfang', dauer: 300, filter }),
        record(7, { was: 'belichtung', phase: 'ende' }),
      ];
    });
    const { yaml } = drafted(lines);
    expect(yaml).toMatch(/filter: '\{filter\}'/);
  });
});

describe('what came to nothing', () => {
  it('is said of its end, and not of one that went well', () => {
    const { yaml } = drafted(
      evening((time, run) => [
        `${time} refocus begins`,
        run === 2
          ? `${time.replace(':00:00', ':01:10')} refocus failed: no minimum, stars 3.4 px`
          : `${time.replace(':00:00', ':01:10')} refocus done, stars 2.8 px`,
      ]),
    );
    expect(yaml).toMatch(/refocus failed.*\n.*event: focus-end\n.*fields: \{ ok: false \}/);
    expect(yaml.match(/ok: /g)).toHaveLength(1);
  });
});
