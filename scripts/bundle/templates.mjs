// A module of the page's templates, compiled when the program is built: nothing is compiled, and no compiler loaded,
// when a page is made. The same plugin serves the tests, so that they read what is shipped.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';

const NAME = 'virtual:templates';
/**
 * Where in a template a helper was called: made anew for each of a page's hundred thousand calls, and read by none but
 * templates compiled as `strict`.
 */
const PLACE = /,"loc":\{"start":\{"line":\d+,"column":\d+\},"end":\{"line":\d+,"column":\d+\}\}/g;

const PARTIALS = ['sections', 'partials'];
/** `@root`, `@last` and their like, and blocks that are handed to a partial. */
const DATA = /@|\{\{~?#>|\{\{~?>\s*\(/;
const PARTIAL = /\{\{~?>\s*([\w-]+)/g;

/**
 * Whether a template, or one that it takes in, asks for what Handlebars hands down from block to block. Where none
 * does, it is not handed down, and each cell of a table takes half the time.
 */
function asksForData(text, textOf) {
  return DATA.test(text) || [...text.matchAll(PARTIAL)].some(([, name]) => asksForData(textOf(name), textOf));
}

/** @param root the project's top */
export function templates(root) {
  const folder = join(root, 'templates');
  const textOf = (partial) => {
    const file = PARTIALS.map((path) => join(folder, path, `${partial}.hbs`)).find((path) => existsSync(path));
    if (file === undefined) throw new Error(`there is no partial ${partial}`);
    return readFileSync(file, 'utf8');
  };
  const named = (path) => readdirSync(join(folder, path)).filter((file) => file.endsWith('.hbs'));
  return {
    name: 'nightledger-templates',
    resolveId: (id) => (id === NAME ? `\0${NAME}` : null),
    load(id) {
      if (id !== `\0${NAME}`) return null;
      const handlebars = createRequire(import.meta.url)('handlebars');
      const compiled = (file) => {
        this.addWatchFile?.(join(folder, file));
        const template = readFileSync(join(folder, file), 'utf8');
        const data = asksForData(template, textOf);
        return handlebars.precompile(template, { strict: false, preventIndent: true, data }).replace(PLACE, '');
      };
      const partials = PARTIALS.flatMap((path) =>
        named(path).map(
          (file) =>
            `hb.registerPartial(${JSON.stringify(basename(file, '.hbs'))}, hb.template(${compiled(join(path, file))}));`,
        ),
      );
      const pages = named('.').map((file) => `${JSON.stringify(file)}: hb.template(${compiled(file)})`);
      return [
        "import Handlebars from 'handlebars/runtime.js';",
        'const hb = Handlebars.create();',
        ...partials,
        `export const templates = { ${pages.join(',\n')} };`,
      ].join('\n');
    },
  };
}
