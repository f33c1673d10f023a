/** How evenly a night imaged the panels of mosaics, and how even they are including earlier nights. */
import { mosaicBalance, type Total } from '../../../model/index.js';
import type { ViewContext } from './context.js';

export function mosaicTexts({ night, earlier }: ViewContext): string[] {
  const { totals } = night.accounts;
  const past = (earlier?.nights ?? []).filter(({ date }) => date < night.date).flatMap((one) => one.totals);
  const tonight = balanceOf(totals);
  const inAll = past.length === 0 ? [] : balanceOf([...past, ...totals]);
  return [
    ...tonight,
    ...inAll.filter((text) => !tonight.includes(text)).map((text) => `Including earlier nights: ${text}`),
  ];
}

function balanceOf(totals: readonly Pick<Total, 'target' | 'filter' | 'ms'>[]): string[] {
  return mosaicBalance(totals.map(({ target, filter, ms }) => ({ target, filter, keptMs: ms.kept })));
}
