// Loads bundled stages as the program loads its modules, with the compiled code of the run before, and ends as it does.
const { join } = require('node:path');

/**
 * @param {string} dist what `bundle` made
 * @param {string} work what is loaded for: each has a file of compiled code, as each command of the program has
 */
exports.loader = (dist, work) => {
  const { CompiledModules } = require(join(dist, 'start/compiled-modules.js'));
  const modules = new CompiledModules(dist, join(dist, `code/${work}.code`));
  process.on('exit', () => modules.keep());
  return (path) => modules.load(path);
};

/** Ends the process when all is written, without waiting for what V8 is still optimising (src/cli/leave.ts). */
exports.leave = () => setImmediate(() => process.exit());
