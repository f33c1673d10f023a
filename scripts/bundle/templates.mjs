// A module of the page's templates, compiled when the program is built: nothing is compiled, and no compiler loaded,
// when a page is made. The same plugin serves the tests, so that they read what is shipped.
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';

const NAME = 'virtual:templates';
/**
 * Where in a template a helper was called: made anew for each of a page's hundred thousand calls, and read by none but
 * templates compiled as `strict`.
 */
const PLACE = /,"loc":\{"start":\{"line":\d+,"column":\d+\},"end":\{"line":\d+,"column":\d+\}\}/g;

/** @param root the project's top */
export function templates(root) {
  const folder = join(root, 'templates');
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
        return handlebars.precompile(template, { strict: false, preventIndent: true }).replace(PLACE, '');
      };
      const partials = ['sections', 'partials'].flatMap((path) =>
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
