import { resolveInks } from './inks.js';

const round = (number: string): string => String(Number(Number(number).toFixed(1)));

interface TextRun {
  readonly attributes: string;
  readonly x: string;
  readonly y: string;
  readonly text: string;
}

/** What the canvas writes for one word. Its weight and family are names of its own; the ink says what is bold. */
const FONT = /font-size="([\d.]+)"(?: font-weight="\d+")? font-family="[^"]*"/;
const TEXT = new RegExp(`<text ([^>]*?) ${FONT.source} x="([^"]*)" y="([^"]*)">([^<]*)</text>`, 'g');

function writeText(run: TextRun): string {
  return `<text ${run.attributes} x="${run.x}" y="${run.y}">${run.text}</text>`;
}

/**
 * The canvas writes one element a word, with a place for every glyph. The page's letters are the same font, so one
 * element a phrase says the same, reads aloud as a phrase, and is found when searched for.
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
    // A title in two lines has the same ink in both; a blank may come without a place of its own.
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

/** Neighbouring paths in the same ink become one: grid lines, ticks, and all marks of a train. */
function joinPaths(svg: string): string {
  return svg.replaceAll(
    PATHS,
    (run, attributes: string) =>
      `<path ${attributes} d="${[...run.matchAll(/ d="([^"]*)"/g)].map((match) => match[1] ?? '').join('')}"/>`,
  );
}

/**
 * Makes the canvas's SVG fit for the page: colours become the page's variables, coordinates lose the digits no eye
 * sees, words join to phrases, ids become the chart's own, and the picture takes the width it is given.
 *
 * @param svg what the canvas wrote
 * @param id prefix for ids, unique within the page
 * @param label what the chart says, for those who do not see it
 */
export function pageSvg(svg: string, id: string, label: string): string {
  const size = /<svg [^>]*width="([\d.]+)" height="([\d.]+)"/.exec(svg);
  const [width, height] = [size?.[1] ?? '0', size?.[2] ?? '0'];
  // The canvas numbers its clips through all pictures; ours begin anew in each, so that the same night is the same
  // page.
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
