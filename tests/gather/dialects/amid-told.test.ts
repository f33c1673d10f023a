import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const two = (value: number): string => String(value).padStart(2, '0');

/** A night whose lines name by a path what they are about: places are centred on in three tries each. */
function topics(): string[] {
  const lines: string[] = [];
  let at = Date.UTC(2026, 9, 14, 20, 0, 0);
  const say = (afterS: number, text: string): void => {
    at += afterS * 1000;
    const clock = new Date(at);
    lines.push(
      `2026-10-14 ${two(clock.getUTCHours())}:${two(clock.getUTCMinutes())}:${two(clock.getUTCSeconds())} ${text}`,
    );
  };
  for (let target = 1; target <= 3; target++) {
    say(5, `mount/slew/start M ${30 + target}`);
    say(40, 'mount/slew/end -');
    say(1, 'mount/centring/start -');
    for (const off of [212, 31, 4]) say(9, `mount/centring/offset ${off + target}`);
    say(2, 'mount/centring/end -');
    for (let i = 0; i < 5; i++) {
      say(4, 'heron/exposure/start seconds:60');
      say(60, 'heron/exposure/end -');
      say(1, `heron/file/saved heron_${target}${i}.fits`);
      if (i % 2 === 0) continue;
      say(1, 'heron/waits-for-dither -');
      say(2, 'mount/dither/start -');
      say(3, 'mount/dither/end -');
    }
  }
  return lines;
}

describe('a line that only names what others tell the beginnings and the ends of', () => {
  it('says how it goes on where it stands in between', () => {
    const { report } = drafted(topics());
    const eventsOf = (word: string): readonly string[] =>
      report.rules
        .filter(({ when }) => String(when).includes(word))
        .flatMap(({ events }) => events.map((e) => e.event));
    expect(eventsOf('centring/start')).toEqual(['centre-begin']);
    expect(eventsOf('centring/end')).toEqual(['centre-end']);
    expect(eventsOf('centring/offset')).toEqual([]);
  });

  it('may be named by a path of two words with hyphens', () => {
    const { report } = drafted(topics());
    const waits = report.rules.find(({ when }) => String(when).includes('waits'));
    expect(waits?.events.map(({ event }) => event)).toEqual(['dither-ready']);
  });
});
