// The browser is the system's own (see src/report/pdf/browser.ts); nothing is downloaded at install.
module.exports = { skipDownload: true };
