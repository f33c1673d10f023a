import { describe, expect, it } from 'vitest';
import { tokens } from '../../../src/report/design/tokens.js';
import { ink, INK_STYLES, resolveInks } from '../../../src/report/charts/inks.js';

describe('inks', () => {
  it('encodes every token in every style as a colour of its own', () => {
    const all = tokens().names.flatMap((name) => INK_STYLES.map((style) => ink(name, style)));
    expect(new Set(all).size).toBe(all.length);
    for (const colour of all) expect(colour).toMatch(/^#5E[0-9A-F]{4}$/);
  });

  it('resolves to the page’s variables', () => {
    expect(resolveInks(`<path fill="${ink('paper')}"/>`)).toBe('<path fill="var(--paper)"/>');
    expect(resolveInks(`<path stroke="${ink('rule', 'dashed')}"/>`)).toBe(
      '<path stroke="var(--rule)" stroke-dasharray="6 4"/>',
    );
    expect(resolveInks(`<text fill="${ink('ink', 'bold')}"/>`)).toBe('<text fill="var(--ink)" font-weight="600"/>');
  });

  it('leaves other colours alone', () => {
    expect(resolveInks('<path fill="#123456"/>')).toBe('<path fill="#123456"/>');
  });

  it('refuses an ink that no token has', () => {
    expect(() => ink('beige')).toThrow(/no colour "beige"/);
    expect(() => resolveInks('<path fill="#5E00FF"/>')).toThrow(/unknown ink/);
  });
});
