// Writes what lies beyond ASCII by numbers: one such letter, and V8 keeps the whole file as letters of two bytes, which
// are read from disk and turned into text at every start.
import { minifySync } from 'vite';

export function ascii() {
  return {
    name: 'nightledger-ascii',
    generateBundle(_, bundle) {
      for (const chunk of Object.values(bundle)) {
        if (chunk.type !== 'chunk') continue;
        const { code, errors } = minifySync(chunk.fileName, chunk.code, {
          compress: false,
          mangle: false,
          codegen: { removeWhitespace: false, asciiOnly: true },
        });
        if (errors.length > 0) throw new Error(`${chunk.fileName} cannot be written in ASCII: ${errors[0].message}`);
        chunk.code = code;
      }
    },
  };
}
