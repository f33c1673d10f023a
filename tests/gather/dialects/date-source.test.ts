import { describe, expect, it } from 'vitest';
import { dateSource } from '../../../src/gather/dialects/draft/time/date-source.js';

describe('where the date of a log comes from whose stamps have none', () => {
  it.each([
    // A version and a word behind it look like a day and a month, until the month is looked up.
    ['LOG 0.7 grinding the evening of Saturday 10 October 2026', '{day} {month-name} {year}', '10 October 2026'],
    ['rev 3 lists what was done on 4 May, evening of Tuesday May 5, 2026', '{month-name} {day}, {year}', 'May 5, 2026'],
    ['<?xml version="1.0"?> <log evening="Saturday, July 18, 2026">', '{month-name} {day}, {year}', 'July 18, 2026'],
  ])('%s', (text, pattern, date) => {
    const source = dateSource('time', 'night.log', [{ text, number: 1 }]);
    expect(source).toMatchObject({ from: 'header', pattern, line: 1, evening: true });
    const when = source.from === 'header' ? source.when : '';
    expect(new RegExp(when, 'u').exec(text)?.groups?.date).toBe(date);
  });

  it('tells an element by its own beginning, whatever its weekday', () => {
    const source = dateSource('time', 'night.xml', [
      { text: '<?xml version="1.0"?> <log evening="Saturday, July 18, 2026">', number: 1 },
    ]);
    const when = source.from === 'header' ? source.when : '';
    expect('<log evening="Sunday, July 19, 2026">').toMatch(new RegExp(when, 'u'));
  });
});
