import { duration, type Night } from '../../model/index.js';
import { viewContext, type ViewContext } from '../html/view/context.js';
import { findingsView } from '../html/view/findings.js';
import { frontView } from '../html/view/front.js';
import { headlineText } from '../html/view/headline.js';
import type { Format } from './format.js';

/** A text inside Markdown: what would be read as markup, a table's edge or a tag is escaped. */
function plain(text: string): string {
  return text.replaceAll(/[\\`*_{}[\]<>#|~]/g, '\\$&').replaceAll(/\s+/g, ' ');
}

function table(head: readonly string[], numeric: readonly boolean[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(numeric.map((one) => (one ? '---:' : '---'))), ...rows.map(line)].join('\n');
}

function totals({ night, palette }: ViewContext): string {
  return table(
    ['Target', 'Filter', 'Train', 'Taken', 'Kept', 'Doubtful', 'Lost'],
    [false, false, false, true, true, true, true],
    night.accounts.totals.map((total) => [
      plain(total.target === '' ? 'no target named' : total.target),
      plain(palette.filter(total.filter).label),
      plain(total.train),
      ...[total.ms.taken, total.ms.kept, total.ms.doubtful, total.ms.lost].map((ms) => duration(ms)),
    ]),
  );
}

/** The night as a few lines of Markdown, for a forum or a chat. Where the site is does not stand in it. */
export const summary: Format = {
  id: 'summary',
  extension: 'md',
  title: 'a short text for a forum or a chat',
  render(night: Night, { version, displayZone, share }) {
    const context = viewContext(night, { displayZone, share });
    const front = frontView(context);
    const findings = findingsView(context);
    const sections = [
      `# ${front.title}`,
      plain(headlineText(context)),
      front.figures.map(({ label, value, note }) => `- ${label}: ${value} (${plain(note)})`).join('\n'),
      ...(night.accounts.totals.length === 0 ? [] : [totals(context)]),
      ...(findings.first.length === 0
        ? []
        : [
            findings.first
              .map((finding) => `${finding.rank}. ${plain(finding.title)}: ${finding.cost}. ${plain(finding.advice)}`)
              .join('\n'),
          ]),
      ...front.notices.map(plain),
      `nightledger ${version}`,
    ];
    return Promise.resolve(`${sections.join('\n\n')}\n`);
  },
};
