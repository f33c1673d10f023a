import { createHash } from 'node:crypto';
import { templates } from 'virtual:templates';
import { firm, SPELT_LETTERS, SPELT_NUMBER } from '../../model/index.js';
import { themeStyles } from '../design/tokens.js';
import { readTemplate } from '../package-files.js';
import { fitStyles } from '../timeline/scale.js';
import { fontFaces } from './fonts.js';
import { briefView } from './view/brief.js';
import type { ChartView, ChartViews } from './view/charts.js';
import type { NightView, SectionHead } from './view/index.js';

const STYLES = ['base.css', 'tables.css', 'pictures.css', 'stars.css', 'pointing.css', 'effective.css', 'replay.css'];
const PRINT_STYLES = ['print.css'];

type Template = (view: object) => string;

interface Page {
  readonly styles: string;
  readonly script: string;
  readonly policy: string;
}

/** A page's metadata, and its styles beyond those of every page. */
export interface PageSetting {
  /** File under `templates/`. */
  readonly template: string;
  readonly styles?: readonly string[];
  /** For the header and footer of every printed page. */
  readonly title: string;
  readonly place: string;
}

/** A page's template, with every section and partial under its file's name. */
function templateOf(name: string): Template {
  const template = templates[name];
  if (!template) throw new Error(`there is no template ${name}`);
  return template;
}

const sha256 = (text: string): string => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;

/** The only styles and script that a browser may apply to the page: those it was built with. Nothing may be fetched. */
function policyFor(styles: string, script: string): string {
  return [
    "default-src 'none'",
    `style-src ${sha256(styles)}`,
    `script-src ${sha256(script)}`,
    'font-src data:',
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** Text for a CSS string: everything except letters, digits and spaces is escaped. */
function cssString(text: string): string {
  return (
    '"' +
    [...text].map((c) => (/[A-Za-z0-9 ]/.test(c) ? c : `\\${(c.codePointAt(0) ?? 32).toString(16)} `)).join('') +
    '"'
  );
}

/** The page on which a section begins in print; `null` before the first printing. */
export type PageNumbers = ReadonlyMap<string, number> | null;

/** The night in full for paper: every section and the whole appendix, with a contents list. */
export function renderFullPrint(view: NightView, pageOf: PageNumbers): string {
  const withPages = (heads: readonly SectionHead[]) =>
    heads.map((head) => ({ ...head, page: String(pageOf?.get(head.id) ?? '') }));
  const print = {
    ...view,
    print: true,
    full: true,
    charts: withCharts(view, acrossPaper),
    contents: withPages(view.contents),
    appendix: withPages(view.appendix),
  };
  return renderView(print, { template: 'print-full.hbs', title: view.front.title, place: view.front.place });
}

/** The charts of a view, each converted to what an edition shows of it. */
function withCharts({ charts }: NightView, made: (chart: ChartView) => ChartView): ChartViews {
  return Object.fromEntries(Object.entries(charts).map(([id, chart]) => [id, made(chart)]));
}

/** A chart across the paper, if it was drawn for that. */
function acrossPaper(chart: ChartView): ChartView {
  return chart.paper === '' ? chart : { ...chart, wide: chart.paper, paper: '' };
}

/** The night on a few pages of paper. @param level how tightly it is set, from 0 */
export function renderBriefPrint(view: NightView, level: number): string {
  const brief = briefView(view, level);
  const front = brief.has.almanac ? view.front : { ...view.front, almanac: [] };
  const pictures = brief.has.pictures ? view.pictures : { ...view.pictures, fields: [] };
  const charts = withCharts(view, (chart) => ({ ...chart, paper: '' }));
  const print = { ...view, charts, print: true, front, tonight: brief.tonight, brief, pictures };
  return renderView(print, { template: 'print-brief.hbs', title: view.front.title, place: view.front.place });
}

/** The page of a night. */
export function renderPage(view: NightView): string {
  return renderView(
    { ...view, charts: withCharts(view, (chart) => ({ ...chart, paper: '' })) },
    { template: 'night.hbs', title: view.front.title, place: view.front.place },
  );
}

/** The page of a view: one file that loads nothing. */
export function renderView(view: object, { template, styles: more = [], title, place }: PageSetting): string {
  const running = `:root{--running-title:${cssString(title)};--running-foot:${cssString(place)}}`;
  const styles = [
    fontFaces(letters(view)),
    themeStyles(),
    running,
    fitStyles(),
    ...[...STYLES, ...more, ...PRINT_STYLES].map((file) => readTemplate(`styles/${file}`)),
  ].join('\n');
  const script = readTemplate('script.js');
  const page: Page = { styles, script, policy: policyFor(styles, script) };
  return withFirmUnits(templateOf(template)({ ...view, page }));
}

/** Drawings for a screen width: they contain no text that is not also elsewhere. */
const DRAWINGS: ReadonlySet<string> = new Set(['wide', 'paper', 'narrow']);
type Fields = Readonly<Record<string, unknown>>;

const BEYOND_LATIN_1 = /[\u0100-\u{10ffff}]/u;

/** The letters of a view that a Latin-only font may lack, each at least once. */
function letters(view: unknown): string {
  if (typeof view === 'string') return BEYOND_LATIN_1.test(view) ? view : '';
  if (typeof view !== 'object' || view === null) return '';
  let all = '';
  // A view has ten thousand values: creating pairs of each would take several times as long.
  if (Array.isArray(view)) for (const value of view) all += letters(value);
  else for (const key of Object.keys(view)) if (!DRAWINGS.has(key)) all += letters((view as Fields)[key]);
  return all;
}

/** A text of the page, between two tags, with a number and a blank. */
const TEXT = />[^<>]*\d [^<>]*</g;
/** A file name must be copyable as it is. */
const NAMES_FILE = /\.(?:fits?|fts|fz)\b/i;

/** A designation as this program spells it, up to its number. */
const SPELT_DESIGNATION = new RegExp(`${SPELT_LETTERS}${SPELT_NUMBER}`, 'gu');

/** Any other catalogue's letters and number alone between two tags, as in a table's cell: `PK 164` must not break. */
const DESIGNATION = />(\p{Lu}{1,5}) (\d{1,6})</gu;

/** Whether a position in a page is in text, not inside a tag, and the text names no file. */
function isInText(html: string, at: number): boolean {
  const begin = html.lastIndexOf('>', at);
  return html.lastIndexOf('<', at) < begin && !NAMES_FILE.test(html.slice(begin, html.indexOf('<', at)));
}

/** A page on which numbers stay on one line with their units; styles and script are unchanged. */
function withFirmUnits(html: string): string {
  const begin = html.indexOf('<body');
  const end = Math.max(html.lastIndexOf('<script>'), 0) || html.length;
  const body = html
    .slice(begin, end)
    .replace(TEXT, (text) => (NAMES_FILE.test(text) ? text : firm(text)))
    .replace(DESIGNATION, '>$1\u00a0$2<')
    .replace(SPELT_DESIGNATION, (found, at: number, all: string) =>
      isInText(all, at) ? found.replace(' ', '\u00a0') : found,
    );
  return html.slice(0, begin) + body + html.slice(end);
}
