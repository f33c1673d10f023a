/** What stands where nothing is known; the reason stands beside it. */
export const UNKNOWN = '—';

/** A number with a fixed count of decimals and a true minus sign; an em dash when it is not known. */
export function decimal(value: number | null | undefined, digits: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return UNKNOWN;
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** A share of 1 in per cent: `62 %`; below one per cent `0.4 %`, below that `< 0.1 %`. */
export function percent(share: number | null | undefined): string {
  if (share === null || share === undefined || !Number.isFinite(share)) return UNKNOWN;
  const value = share * 100;
  if (value > 0 && value < 0.05) return '< 0.1 %';
  return `${value > 0 && value < 0.95 ? value.toFixed(1) : value.toFixed(0)} %`;
}

/** A whole number with thin groups of thousands: `12 400`. */
export function whole(value: number): string {
  return Math.round(value)
    .toString()
    .replaceAll(/\B(?=(\d{3})+$)/g, '\u202f');
}

/** A file size: `5.8 kB`, `12.4 MB`. */
export function fileSize(bytes: number): string {
  if (bytes < 1000) return `${bytes} B`;
  if (bytes < 1e6) return `${(bytes / 1e3).toFixed(1)} kB`;
  return bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(2)} GB`;
}

/** `1 frame`, `3 frames`. */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${whole(count)} ${count === 1 ? singular : plural}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1] ?? ''}`;
}
