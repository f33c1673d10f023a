import { BaseSequencer } from 'vitest/node';

export class LongestFirst extends BaseSequencer {}
