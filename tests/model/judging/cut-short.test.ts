import { describe, expect, it } from 'vitest';
import { cutShort } from '../../../src/model/judging/cut-short.js';
import { header as headerOf, light } from '../../support/events.js';
import { around, causesBy } from './around.js';

describe('an exposure cut short', () => {
  it('is lost when the log says so', () => {
    const [cause] = causesBy(cutShort, light('wren', '21:00:00', 120, { aborted: true, askedMs: 300_000 }), around());
    expect(cause).toMatchObject({ verdict: 'lost', kind: 'cut-short' });
    expect(cause?.evidence).toBe('the exposure was aborted after 2 min of 5 min');
  });
  it('is lost when the header states less than was asked', () => {
    expect(causesBy(cutShort, light('wren', '21:00:00', 280, { askedMs: 300_000 }), around())).toHaveLength(1);
  });
  it('is lost when its file ends before its last pixel, however long the exposure', () => {
    const whole = light('wren', '21:00:00', 300);
    const header = { ...headerOf('wren.fits', '21:00:00', 300), sizeBytes: 23_400_000 };
    expect(causesBy(cutShort, { ...whole, header }, around())).toEqual([]);
    const [cause] = causesBy(cutShort, { ...whole, header: { ...header, isCutOff: true } }, around());
    expect(cause).toMatchObject({ verdict: 'lost', kind: 'cut-short', by: 'header' });
    expect(cause?.evidence).toMatch(/truncated after 23\.4 MB/);
  });
  it('is not what rounding makes', () => {
    expect(causesBy(cutShort, light('wren', '21:00:00', 299.6, { askedMs: 300_000 }), around())).toEqual([]);
    expect(causesBy(cutShort, light('wren', '21:00:00', 300), around())).toEqual([]);
  });
});
