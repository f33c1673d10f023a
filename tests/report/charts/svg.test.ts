import { describe, expect, it } from 'vitest';
import { pageSvg } from '../../../src/report/charts/svg.js';

const wrap = (body: string): string =>
  `<?xml version="1.0" encoding="utf-8" ?><svg xmlns="http://www.w3.org/2000/svg" width="400" height="200">${body}</svg>`;

describe('pageSvg', () => {
  it('joins the words of a phrase and keeps the first place', () => {
    const word = (x: string, text: string): string =>
      `<text fill="#111111" transform="translate(209.866 188.8)" font-size="12" font-family="Source Sans 3" x="${x}" y="2.625, ">${text}</text>`;
    const svg = pageSvg(
      wrap(word('-49.83638, -43.3, ', 'local') + word('', '') + word('-4.66, ', 'time')),
      'c',
      'a chart',
    );
    expect(svg).toContain(
      '<text fill="#111111" transform="translate(209.9 188.8)" font-size="12" x="-49.8" y="2.6">local time</text>',
    );
    expect(svg.match(/<text/g)).toHaveLength(1);
  });

  it('drops the canvas’s own name for a bold cut: the ink says what is bold', () => {
    const bold =
      '<text fill="#111111" font-size="13" font-weight="500" font-family="Some Sans SemiBold, Some Sans" x="5.04, 9, " y="63.04, ">ab</text>';
    expect(pageSvg(wrap(bold), 'c', '')).toContain('<text fill="#111111" font-size="13" x="5" y="63">ab</text>');
  });

  it('keeps phrases at different places apart', () => {
    const text = (at: string): string =>
      `<text fill="#111111" transform="translate(${at})" font-size="12" font-family="x" x="0, " y="0, ">a</text>`;
    expect(pageSvg(wrap(text('1 1') + text('2 2')), 'c', '').match(/<text/g)).toHaveLength(2);
  });

  it('keeps the lines of a title apart', () => {
    const word = (y: string, text: string): string =>
      `<text fill="#111111" transform="rotate(-90)" font-size="13" font-family="x" x="0, " y="${y}, ">${text}</text>`;
    const svg = pageSvg(wrap(word('5', 'steps') + word('', '') + word('5', 'from') + word('20.6', 'the')), 'c', '');
    expect([...svg.matchAll(/y="([\d.]+)">([^<]*)</g)].map(([, y, text]) => [y, text])).toEqual([
      ['5', 'steps from'],
      ['20.6', 'the'],
    ]);
  });

  it('joins neighbouring paths of one ink', () => {
    const path = (d: string, colour: string): string => `<path fill="${colour}" d="${d}"/>`;
    expect(
      pageSvg(wrap(path('M0 0L1.234 5', '#111111') + path('M2 2L3 3', '#111111') + path('M4 4', '#222222')), 'c', ''),
    ).toContain('<path fill="#111111" d="M0 0L1.2 5M2 2L3 3"/><path fill="#222222" d="M4 4"/>');
  });

  it('takes the width it is given and says what it shows', () => {
    const svg = pageSvg(wrap(''), 'c', 'a <b> & "c"');
    expect(svg).toMatch(
      /^<svg class="chart" viewBox="0 0 400 200" role="img" aria-label="a &lt;b> &amp; &quot;c&quot;">/,
    );
  });

  it('makes ids the chart’s own', () => {
    expect(
      pageSvg(wrap('<clipPath id="cl_1f"/><g clip-path="url(#cl_1f)"/><clipPath id="cl_20"/>'), 'guiding-wide', ''),
    ).toContain(
      '<clipPath id="guiding-wide-clip-1"/><g clip-path="url(#guiding-wide-clip-1)"/><clipPath id="guiding-wide-clip-2"/>',
    );
  });
});
