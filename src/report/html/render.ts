import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import Handlebars from 'handlebars';
import { themeStyles } from '../design/tokens.js';
import { packageRoot, readTemplate } from '../package-files.js';
import { fontFaces } from './fonts.js';
import type { NightView } from './view/index.js';

const STYLES = ['base.css', 'tables.css', 'pictures.css', 'print.css'];

type Template = (view: NightView & { page: Page }) => string;

interface Page {
  readonly styles: string;
  readonly script: string;
  readonly policy: string;
}

let compiled: Template | undefined;

/** Compiles `night.hbs` with every section and partial under its file's name. Once per process. */
function nightTemplate(): Template {
  if (compiled !== undefined) return compiled;
  const handlebars = Handlebars.create();
  for (const folder of ['sections', 'partials']) {
    for (const file of readdirSync(join(packageRoot(), 'templates', folder))) {
      if (file.endsWith('.hbs')) handlebars.registerPartial(basename(file, '.hbs'), readTemplate(`${folder}/${file}`));
    }
  }
  return (compiled = handlebars.compile(readTemplate('night.hbs'), { strict: false, preventIndent: true }));
}

const sha256 = (text: string): string => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;

/** The only styles and script that a browser may apply to the page: those it was made with. Nothing may be fetched. */
function policyFor(styles: string, script: string): string {
  return [
    "default-src 'none'", `style-src ${sha256(styles)}`, `script-src ${sha256(script)}`, 'font-src data:', "img-src data:", "base-uri 'none'", "form-action 'none'",
  ].join('; ');
}

/** Text for a CSS string: everything but letters, digits and spaces becomes an escape. */
function cssString(text: string): string {
  return `"${[...text].map((c) => (/[A-Za-z0-9 ]/.test(c) ? c : `\\${(c.codePointAt(0) ?? 32).toString(16)} `)).join('')}"`;
}

/** The page of a view: one file that asks for nothing. */
export function renderPage(view: NightView): string {
  const text = JSON.stringify(view, (key, value: unknown) => (key === 'wide' || key === 'narrow' ? undefined : value));
  const running = `:root{--running-title:${cssString(view.front.title)}}`;
  const styles = [fontFaces(text), themeStyles(), running, ...STYLES.map((file) => readTemplate(`styles/${file}`))].join('\n');
  const script = readTemplate('script.js');
  return nightTemplate()({ ...view, page: { styles, script, policy: policyFor(styles, script) } });
}
