import { describe, expect, it } from 'vitest';
import { dateSource } from '../../../src/gather/dialects/draft/time/date-source.js';

/** A log that states its date nowhere. */
const NOWHERE = {
  unstamped: [],
  stamped: [],
  lines: [],
  titles: [],
  last: Infinity,
  known: { days: [], writtenMs: NaN },
};

describe('where the date of a log comes from whose stamps have none', () => {
  it.each([
    // A version and a word behind it look like a day and a month, until the month is looked up.
    ['LOG 0.7 grinding the evening of Saturday 10 October 2026', '{day} {month-name} {year}', '10 October 2026'],
    ['rev 3 lists what was done on 4 May, evening of Tuesday May 5, 2026', '{month-name} {day}, {year}', 'May 5, 2026'],
    ['<?xml version="1.0"?> <log evening="Saturday, July 18, 2026">', '{month-name} {day}, {year}', 'July 18, 2026'],
    [
      'vigilia de la noche de 9 para 10 de marzo de 2026',
      '{day} para {number} de {month-name} de {year}',
      '9 para 10 de marzo de 2026',
    ],
    [
      'in der Nacht vom 9. auf den 10. März 2026',
      '{day}. auf den {number}. {month-name} {year}',
      '9. auf den 10. März 2026',
    ],
    ['vigilia fra il 9 e il 10 maggio 2026', '{day} e il {number} {month-name} {year}', '9 e il 10 maggio 2026'],
    [
      'from the 9th to the 10th of May 2026',
      '{day}th to the {number}th of {month-name} {year}',
      '9th to the 10th of May 2026',
    ],
    ['book,Cierzo Hill,2026-05-09の夜,all times local', '{year}-{month}-{day}', '2026-05-09'],
    ['Havaintoyö 9. toukokuuta 2026', '{day}. {month-name} {year}', '9. toukokuuta 2026'],
    ['Észlelés: 2026. október 3. estéje', '{year}. {month-name} {day}', '2026. október 3'],
    ['вечер 17 апреля 2026 года', '{day} {month-name} {year}', '17 апреля 2026'],
    ['βράδυ 17 Απριλίου 2026', '{day} {month-name} {year}', '17 Απριλίου 2026'],
    ['9 Mayıs 2026 gecesi', '{day} {month-name} {year}', '9 Mayıs 2026'],
    ['kvällen 17 maj 2026', '{day} {month-name} {year}', '17 maj 2026'],
    ['from 31 March to 1 April 2026', '{day} {month-name} to 1 April {year}', '31 March to 1 April 2026'],
    ['Nacht 22/23.01.2026, Ortszeit', '{day}/{number}.{month}.{year}', '22/23.01.2026'],
    ['nuit du 22 au 23/01/2026', '{day} au {number}/{month}/{year}', '22 au 23/01/2026'],
    ['noc 22.-23. 1. 2026', '{day}.-{number}. {month}. {year}', '22.-23. 1. 2026'],
    ['noc 18/19 IX 2026, stan co minutę', '{day}/{number} {month-name} {year}', '18/19 IX 2026'],
    ['noc 18/19.IX.2026', '{day}/{number}.{month-name}{year}', '18/19.IX.2026'],
    ['w dniu 18.XII.2026 r.', '{day}.{month-name}{year}', '18.XII.2026'],
    ['night 22-23.01.26', '{day}-{number}.{month}.{year2}', '22-23.01.26'],
    ['notte 30.04/01.05.2026', '{day}.{month}/{number}.{number}.{year}', '30.04/01.05.2026'],
    ['night of 01/22-23/2026', '{month}/{day}-{number}/{year}', '01/22-23/2026'],
    ['Night 2026-01-22/23', '{year}-{month}-{day}/{number}', '2026-01-22/23'],
    ['観測 2026年1月22〜23日', '{year}年{month}月{day}〜{number}日', '2026年1月22〜23日'],
    ['Thursday January 22/23, 2026', '{month-name} {day}/{number}, {year}', 'January 22/23, 2026'],
    [
      'January 31 to February 1, 2026',
      '{month-name} {day} to {weekday} {number}, {year}',
      'January 31 to February 1, 2026',
    ],
    [
      'Donnerstag, 22. auf Freitag, 23. Januar 2026',
      '{day}. auf {weekday}, {number}. {month-name} {year}',
      '22. auf Freitag, 23. Januar 2026',
    ],
    ['22 enero - 23 enero 2026', '{day} {month-name} - {number} {weekday} {year}', '22 enero - 23 enero 2026'],
    // Nights follow each other: these numbers are no two days.
    ['Page 22/40, 23.01.2026', '{day}.{month}.{year}', '23.01.2026'],
    ['Sheet 4 made on 20 May 2026', '{day} {month-name} {year}', '20 May 2026'],
  ])('%s', (text, pattern, date) => {
    const source = dateSource('time', 'night.log', { ...NOWHERE, unstamped: [{ text, number: 1 }] });
    expect(source).toMatchObject({ from: 'header', pattern, line: 1, evening: true });
    const when = source.from === 'header' ? source.when : '';
    expect(new RegExp(when, 'u').exec(text)?.groups?.date).toBe(date);
  });

  it('tells an element by its own beginning, whatever its weekday', () => {
    const source = dateSource('time', 'night.xml', {
      ...NOWHERE,
      unstamped: [{ text: '<?xml version="1.0"?> <log evening="Saturday, July 18, 2026">', number: 1 }],
    });
    const when = source.from === 'header' ? source.when : '';
    expect('<log evening="Sunday, July 19, 2026">').toMatch(new RegExp(when, 'u'));
  });

  it('takes the date in front of the time where the lines below a dated one have the time alone', () => {
    const minutes = ['00', '01', '02', '03', '04', '05'];
    const lines = minutes.flatMap((minute, i) => [
      { text: `2026-09-25 22:${minute}:22,640 DEBUG guider> last samples`, number: 2 * i + 1 },
      { text: `    22:${minute}:04  RA -0,35"  DEC +0,27"`, number: 2 * i + 2 },
    ]);
    const source = dateSource('time', 'night.log', { ...NOWHERE, lines });
    expect(source).toMatchObject({ from: 'header', pattern: '{year}-{month}-{day}', line: 1, evening: false });
    const when = new RegExp(source.from === 'header' ? source.when : '$.', 'u');
    expect(lines.filter(({ text }) => when.test(text))).toHaveLength(minutes.length);
  });

  it('takes the day that the titles of blocks state, whatever else they say', () => {
    const titles = ['冷却', '導入', '撮影', '撮影', '撮影', '調整', '撮影'].map((job, i) => ({
      text: `【00${i}】${job}　2026年10月30日`,
      number: 1 + 5 * i,
    }));
    const source = dateSource('time', 'night.log', { ...NOWHERE, titles });
    expect(source).toMatchObject({ from: 'header', pattern: '{year}年{month}月{day}日', evening: false });
    const when = new RegExp(source.from === 'header' ? source.when : '$.', 'u');
    expect(titles.every(({ text }) => when.exec(text)?.groups?.date === '2026年10月30日')).toBe(true);
  });

  it('takes no day on which a program was built', () => {
    const head = [
      { text: 'hutrunner v2.1.0, built 2024-03-01', number: 1 },
      { text: 'night of 2026-10-14', number: 2 },
    ];
    expect(dateSource('time', 'night.log', { ...NOWHERE, unstamped: head })).toMatchObject({ from: 'header', line: 2 });
    const named = dateSource('time', 'night_2026-10-14.log', { ...NOWHERE, unstamped: head.slice(0, 1) });
    expect(named).toMatchObject({ from: 'file', pattern: '{year}-{month}-{day}' });
  });
});
