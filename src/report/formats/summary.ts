import { duration, groupBy, sum, type Night } from '../../model/index.js';
import { viewContext, type ViewContext } from '../html/view/context.js';
import { findingsView } from '../html/view/findings.js';
import { frontView } from '../html/view/front.js';
import { headlineText } from '../html/view/headline.js';
import { tonightView } from '../html/view/tonight.js';
import type { Format } from './format.js';

/** A text inside Markdown: anything that would be read as markup, a table separator or a tag is escaped. */
function plain(text: string): string {
  return text.replaceAll(/[\\`*_{}[\]<>#|~]/g, '\\$&').replaceAll(/\s+/g, ' ');
}

function table(head: readonly string[], numeric: readonly boolean[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(numeric.map((one) => (one ? '---:' : '---'))), ...rows.map(line)].join('\n');
}

/** Kept hours: a row per target and filter, a column per train, and their sum if there are several. */
function totals({ night, palette }: ViewContext): string {
  const trains = night.gathered.trains.map(({ id }) => id);
  const several = trains.length > 1;
  const rows = [
    ...groupBy(night.accounts.totals, ({ target, filter }) => JSON.stringify([target, filter])).values(),
  ].map((own) => {
    const kept = trains.map((id) => sum(own.filter(({ train }) => train === id).map(({ ms }) => ms.kept)));
    const [first] = own;
    return [
      plain(first?.target || 'no target named'),
      plain(palette.filter(first?.filter).label),
      ...kept.map((ms) => (ms === 0 ? '' : duration(ms))),
      ...(several ? [`**${duration(sum(kept))}**`] : []),
    ];
  });
  return table(
    ['Target', 'Filter', ...trains.map(plain), ...(several ? ['together'] : [])],
    [false, false, ...trains.map(() => true), ...(several ? [true] : [])],
    rows,
  );
}

/** The night as a few lines of Markdown, for a forum or a chat. The location of the site is omitted. */
export const summary: Format = {
  id: 'summary',
  extension: 'md',
  title: 'a short text for a forum or a chat',
  render(night: Night, { version, share }) {
    const context = viewContext(night, { share });
    const front = frontView(context);
    const findings = findingsView(context);
    const { actions, caution, over } = tonightView(
      context,
      [...findings.first, ...findings.rest].map(({ id }) => id),
    );
    const sections = [
      `**${front.title}**`,
      plain(headlineText(context)),
      ...(front.frames === null ? [] : [plain(`${front.frames.text}.`)]),
      ...(night.accounts.totals.every(({ ms }) => ms.kept === 0) ? [] : [`Kept:\n\n${totals(context)}`]),
      ...(actions.length === 0
        ? []
        : [
            'Next time:',
            actions
              .map(
                ({ what, win, cost, needsDarks, confidence }, index) =>
                  `${index + 1}. ${plain(what)} ` +
                  (win === '' ? '' : `Recoverable: ${win}${over}; ${needsDarks ? 'needs new darks; ' : ''}`) +
                  (cost === '' ? '' : `It cost ${cost}${over}; `) +
                  `${win === '' && cost === '' ? 'Confidence' : 'confidence'} ${confidence}.`,
              )
              .join('\n'),
            ...(caution === undefined ? [] : [plain(caution)]),
          ]),
      ...front.notices.map(plain),
      `nightledger ${version}`,
    ];
    return Promise.resolve(`${sections.join('\n\n')}\n`);
  },
};
