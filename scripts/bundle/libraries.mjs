// Libraries that ask for others in ways a bundler cannot follow, and one that asks itself what it need not know.
// chartjs-node-canvas asks for its canvas and its charts by names made up at run time, and for a canvas package that
// must be compiled: here both names are written out, and the canvas is the prebuilt one. ws tries two native helpers
// and does without where they are absent: in a bundle they always are.
const ABSENT = "(() => { throw new Error('not in the bundle'); })()";
const FILES = [
  {
    file: /chartjs-node-canvas\/dist\/freshRequire\.js$/,
    replace: [[/const freshRequire = [\s\S]*?\n};/, "const freshRequire = () => require('@napi-rs/canvas');"]],
  },
  {
    file: /chartjs-node-canvas\/dist\/chartJSNodeCanvasBase\.js$/,
    replace: [
      [/for \(const plugin of options\.plugins\.requireChartJSLegacy\) \{[\s\S]*?\n {12}\}/, ''],
      [/const chartJsPath = [\s\S]*?\n {8}\}\n/, ''],
    ],
  },
  { file: /ws\/lib\/buffer-util\.js$/, replace: [[/require\('bufferutil'\)/, ABSENT]] },
  {
    // Of a pattern that minds the case, whether a letter has another case changes nothing: its table is 10 ms of a start.
    file: /re2js\/build\/index\.js$/,
    replace: [
      [
        /if \(runes\.length !== 1 \|\| Unicode\.simpleFold\(runes\[0\]\) === runes\[0\]\)/,
        'if (flags !== 0 && (runes.length !== 1 || Unicode.simpleFold(runes[0]) === runes[0]))',
      ],
    ],
  },
  { file: /ws\/lib\/validation\.js$/, replace: [[/require\('utf-8-validate'\)/, ABSENT]] },
];

export function libraries() {
  return {
    name: 'nightledger-libraries',
    enforce: 'pre',
    transform(code, id) {
      // Stand-ins that the bundler makes of a module carry its name too.
      if (id.startsWith('\0')) return null;
      const path = id.replaceAll('\\', '/').split('?')[0];
      const found = FILES.find(({ file }) => file.test(path));
      if (!found) return null;
      return found.replace.reduce((text, [from, to]) => {
        if (!from.test(text)) throw new Error(`${path} is not as scripts/bundle/libraries.mjs knows it`);
        return text.replace(from, to);
      }, code);
    },
  };
}
