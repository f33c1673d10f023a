import { resolveInks } from './inks.js';

const round = (number: string): string => String(Number(Number(number).toFixed(1)));

interface TextRun {
  readonly attributes: string;
  readonly x: string;
  readonly y: string;
  readonly text: string;
}

/** The canvas output for one word. Its weight and family are names of its own; the ink encodes bold. */
const FONT = /font-size="([\d.]+)"(?: font-weight="\d+")? font-family="[^"]*"/;
const TEXT = new RegExp(`<text ([^>]*?) ${FONT.source} x="([^"]*)" y="([^"]*)">([^<]*)</text>`, 'g');

function writeText(run: TextRun): string {
  return `<text ${run.attributes} x="${run.x}" y="${run.y}">${run.text}</text>`;
}

/**
 * The canvas writes one element per word, with a position for every glyph. The page has the same font, so one element
 * per phrase is equivalent, is read aloud as a phrase, and can be found by searching.
 */
function joinWords(svg: string): string {
  let out = '';
  let end = 0;
  let open: TextRun | undefined;
  for (const match of svg.matchAll(TEXT)) {
    const [whole, attributes = '', size = '', xs = '', ys = '', text = ''] = match;
    const between = svg.slice(end, match.index);
    const shared = `${attributes} font-size="${size}"`;
    const y = round(ys.split(',')[0] ?? '0');
    // A title on two lines has the same ink in both; a blank may have no position of its own.
    const isNextLine = open !== undefined && text !== '' && y !== open.y;
    if (open !== undefined && (between !== '' || open.attributes !== shared || isNextLine)) {
      out += writeText(open);
      open = undefined;
    }
    out += between;
    end = match.index + whole.length;
    if (open === undefined) open = { attributes: shared, x: round(xs.split(',')[0] ?? '0'), y, text };
    else open = { ...open, text: text === '' ? `${open.text} ` : `${open.text}${text}` };
  }
  if (open !== undefined) out += writeText(open);
  return out + svg.slice(end);
}

const PATHS = /<path ([^>]*?) d="([^"]*)"\/>(?:<path \1 d="[^"]*"\/>)+/g;

/** Adjacent paths with the same ink are merged: grid lines, ticks, and all marks of a train. */
function joinPaths(svg: string): string {
  return svg.replaceAll(
    PATHS,
    (run, attributes: string) =>
      `<path ${attributes} d="${[...run.matchAll(/ d="([^"]*)"/g)].map((match) => match[1] ?? '').join('')}"/>`,
  );
}

/**
 * Adapts the canvas's SVG to the page: colours become the page's variables, coordinates lose invisible digits, words
 * are joined to phrases, ids become the chart's own, and the picture scales to the available width.
 *
 * @param svg the canvas output
 * @param id prefix for ids, unique within the page
 * @param label the content of the chart, as alternative text
 */
export function pageSvg(svg: string, id: string, label: string): string {
  const size = /<svg [^>]*width="([\d.]+)" height="([\d.]+)"/.exec(svg);
  const [width, height] = [size?.[1] ?? '0', size?.[2] ?? '0'];
  // The canvas numbers its clips across all pictures; ours restart in each, so that the same night gives the same page.
  const clips: string[] = [];
  const clipNumber = (name: string): number => (clips.includes(name) ? clips.indexOf(name) : clips.push(name) - 1) + 1;
  const body = joinPaths(joinWords(svg.replace(/^[\s\S]*?<svg [^>]*>/, '').replace('</svg>', '')))
    .replaceAll(/<rect fill-opacity="0"[^>]*\/>/g, '')
    .replaceAll(/ stroke-miterlimit="[^"]*"/g, '')
    .replaceAll(/ font-size="([\d.]+)"/g, (_whole, px: string) => ` font-size="${round(px)}"`)
    .replaceAll(
      / transform="translate\(([^)]*)\)/g,
      (_whole, places: string) => ` transform="translate(${places.split(' ').map(round).join(' ')})`,
    )
    .replaceAll(/ d="([^"]*)"/g, (_whole, path: string) => ` d="${path.replaceAll(/-?\d+\.\d+/g, round)}"`)
    .replaceAll(
      /(id="|url\(#)(cl_\w+)/g,
      (_whole, before: string, name: string) => `${before}${id}-clip-${clipNumber(name)}`,
    );
  const escaped = label.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
  return (
    `<svg class="chart" viewBox="0 0 ${width} ${height}" role="img" ` +
    `aria-label="${escaped}">${resolveInks(body)}</svg>`
  );
}
