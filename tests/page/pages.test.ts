/**
 * Pages and prints in a browser, all in one process: each night is rendered once, and one browser and one reader of PDFs
 * serve them all.
 */
import './parts/night.js';
import './parts/print.js';
import './parts/any-night.js';
import './parts/frame-counts.js';
import './parts/share-print.js';
import './parts/progress.js';
