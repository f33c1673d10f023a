import type { Night } from '../../model/index.js';
export interface FormatContext { readonly nowMs: number; readonly version: string }
export interface Format { readonly id: string; readonly extension: string; render(night: Night, context: FormatContext): Promise<string | Uint8Array> }
export const FORMATS: readonly Format[] = [];
