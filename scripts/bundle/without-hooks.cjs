// Loaded first in each worker of the compiled tests. The test runner would ask a thread of its own for every import, the
// program's as well as the tests', and tell its main process of each, which keeps them for a watch over the sources.
const modules = require('node:module');

modules.registerHooks = undefined;
modules.register = () => undefined;
