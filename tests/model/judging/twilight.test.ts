import { describe, expect, it } from 'vitest';
import { twilight } from '../../../src/model/judging/twilight.js';
import { light } from '../../support/events.js';
import { around, causesBy, sky } from './around.js';

const frame = light('wren', '21:00:00', 300);

describe('twilight', () => {
  it('makes a frame doubtful while the Sun is above −12° in nautical darkness', () => {
    const [cause] = causesBy(twilight, frame, around({ sky: sky({ sunAltitudeDeg: -11.9 }) }));
    expect(cause).toMatchObject({ verdict: 'doubtful' });
    expect(cause?.evidence).toContain('−11.9°');
    expect(causesBy(twilight, frame, around({ sky: sky({ sunAltitudeDeg: -12 }) }))).toEqual([]);
  });
  it('goes by the darkness that was chosen', () => {
    expect(
      causesBy(twilight, frame, around({ darkness: 'astronomical', sky: sky({ sunAltitudeDeg: -15 }) })),
    ).toHaveLength(1);
    expect(causesBy(twilight, frame, around({ darkness: 'civil', sky: sky({ sunAltitudeDeg: -11.9 }) }))).toEqual([]);
  });
});
