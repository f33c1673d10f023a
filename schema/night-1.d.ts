/**
 * A night as it stands in `night.json`: what follows from its published schema, night-1.schema.json.
 * Made by `npm run schema` of the schema whose SHA-256 is 166378a8cca39387299ad2340bd2e82e5229b735b13fe356e496c1af01b00151.
 */

export interface NightRecord {
  schema: "nightledger/night/1";
  generator: {
    name: string;
    version: string;
  };
  night: string;
  site: {
    name: string | null;
    /**
     * degrees
     */
    latitude: number;
    /**
     * degrees
     */
    longitude: number;
    /**
     * metres
     */
    elevation: number | null;
    timezone: string;
  } | null;
  window: {
    /**
     * RFC 3339, UTC
     */
    start: string;
    /**
     * RFC 3339, UTC
     */
    end: string;
    kind: "civil" | "nautical" | "astronomical" | "sunset" | "sun-minimum" | "activity";
    note?: string;
  };
  trains: {
    id: string;
    role: "pilot" | "companion";
    /**
     * arcseconds per pixel
     */
    pixelScale?: number;
    /**
     * free aperture, millimetres
     */
    aperture?: number;
  }[];
  targets: {
    name: string;
    aliases?: string[];
    /**
     * degrees
     */
    ra: number;
    /**
     * degrees
     */
    dec: number;
  }[];
  headersOnly: boolean;
  totals: {
    target: string;
    filter: string;
    train: string;
    frames: {
      taken: number;
      kept: number;
      doubtful: number;
      lost: number;
    };
    seconds: {
      /**
       * seconds
       */
      taken: number;
      /**
       * seconds
       */
      kept: number;
      /**
       * seconds
       */
      doubtful: number;
      /**
       * seconds
       */
      lost: number;
    };
    /**
     * dark-equivalent seconds of the kept frames; null when not known. Not to be added up over filters or trains
     */
    effectiveSeconds?: number | null;
    /**
     * dark-equivalent seconds that moonlight took from the kept frames
     */
    moonCostSeconds?: number | null;
    effectiveBasis?: {
      /**
       * background levels in the headers, or a model of a clear moonlit sky
       */
      sky: "measured" | "modelled" | "mixed";
      /**
       * flux of the same stars in the headers, or extinction of a clear sky
       */
      transparency: "measured" | "modelled" | "mixed";
      /**
       * sky-limited: read noise or sky in electrons unknown
       */
      noise: "read-noise" | "sky-limited";
      /**
       * length of the reference frame
       */
      referenceSeconds: number;
      /**
       * electrons per second and pixel of the moonless zenith sky that is counted against; null when not known
       */
      zenithSky?: number | null;
      /**
       * night: its own, so that hours of other nights are not to be added
       */
      zenithFrom?: "rig-file" | "model" | "night";
    };
    /**
     * dark-equivalent seconds at least and at most, and what leaves room between
     */
    effectiveRange?: {
      /**
       * seconds
       */
      low: number;
      /**
       * seconds
       */
      high: number;
      doubts: ("clear-air" | "clear-nights" | "moon-model" | "sky-of-nights")[];
    };
  }[];
  ledger: {
    train: string;
    account:
      | "kept"
      | "doubtful"
      | "lost"
      | "readout"
      | "dither-wait"
      | "dither"
      | "focus"
      | "filter"
      | "pointing"
      | "guiding"
      | "hold"
      | "partner-wait"
      | "unexplained";
    /**
     * seconds
     */
    seconds: number;
  }[];
  /**
   * where in the night the ledger’s unexplained time lies
   */
  idle?: {
    train: string;
    /**
     * not dark enough for the filter
     */
    twilight: number;
    /**
     * dark enough, but the target below its limit
     */
    low: number;
    /**
     * unused before the first exposure
     */
    before: number;
    /**
     * unused after the last exposure
     */
    after: number;
    /**
     * between exposures, for a reason that no log tells
     */
    between: number;
  }[];
  dithers: {
    /**
     * RFC 3339, UTC
     */
    begin: string;
    waits: {
      /**
       * seconds
       */
      [k: string]: number;
    };
    holder: string | null;
    /**
     * seconds
     */
    moveSeconds: number;
    settleSeconds: number | null;
    inferred?: boolean;
  }[];
  frames: {
    /**
     * relative path; null when the log tells of a frame whose file is missing
     */
    file: string | null;
    /**
     * SHA-256 over the exposure’s header cards: the frame’s identity when files move
     */
    identity?: string;
    train: string;
    target: string | null;
    filter: string | null;
    /**
     * RFC 3339, UTC
     */
    begin: string;
    /**
     * seconds
     */
    seconds: number;
    verdict: "kept" | "doubtful" | "lost";
    causes: {
      kind:
        | "mount-motion"
        | "guiding-off"
        | "cut-short"
        | "no-sky"
        | "rough-guiding"
        | "trailed"
        | "doubled"
        | "swollen"
        | "dimmed"
        | "other-filter"
        | "low"
        | "twilight";
      /**
       * the evidence that decided; absent in older records
       */
      by?: "pixels" | "displacement" | "duration" | "guiding" | "sky" | "header";
      /**
       * RFC 3339, UTC
       */
      from: string;
      /**
       * RFC 3339, UTC
       */
      to: string;
      /**
       * seconds
       */
      overlapSeconds: number;
      causedBy?: string;
      evidence: string;
    }[];
    /**
     * causes that better evidence has set aside
     */
    cleared?: {
      kind:
        | "mount-motion"
        | "guiding-off"
        | "cut-short"
        | "no-sky"
        | "rough-guiding"
        | "trailed"
        | "doubled"
        | "swollen"
        | "dimmed"
        | "other-filter"
        | "low"
        | "twilight";
      /**
       * what cleared it
       */
      by: "pixels" | "displacement" | "duration" | "guiding" | "sky" | "header";
      evidence: string;
    }[];
    stars?: {
      by: "full" | "strips";
      count: number;
      /**
       * pixels
       */
      fwhm: number | null;
      fwhmUncertainty: number | null;
      /**
       * pixels
       */
      halfFlux: number | null;
      /**
       * a/b, 1 for a round star
       */
      elongation: number | null;
      direction: number | null;
      /**
       * standard errors, each in its figure’s unit
       */
      uncertainties?: {
        halfFlux: number | null;
        elongation: number | null;
        direction: number | null;
        background: number | null;
        noise: number | null;
        flux: number | null;
      };
      /**
       * 0 (directions any way) to 1 (all one way)
       */
      agreement: number | null;
      /**
       * ADU
       */
      background: number;
      /**
       * ADU
       */
      noise: number;
      /**
       * where electrons per ADU are known
       */
      electronsPerSecond?: {
        /**
         * per pixel, less the header’s pedestal where it states one
         */
        background: number;
        /**
         * per pixel
         */
        noise: number;
      };
      /**
       * relative to the best third of its group
       */
      flux: number | null;
      /**
       * every star appears twice
       */
      doubled?: {
        /**
         * sensor pixels from each star to its fainter image
         */
        x: number;
        y: number;
        /**
         * of the light in the fainter image
         */
        share: number;
        /**
         * height above all other offsets, in their spread
         */
        significance: number;
      };
      /**
       * share of the read pixels
       */
      saturated: number;
      shift: {
        /**
         * pixels of the reference frame
         */
        x: number;
        y: number;
        /**
         * degrees
         */
        rotation: number;
        matched: number;
      } | null;
    } | null;
    moonSeparation: number | null;
    moonAltitude: number | null;
    altitude: number | null;
    airmass: number | null;
    /**
     * arcseconds, total of both axes
     */
    guidingRms?: number | null;
    /**
     * pixels, as the header has it
     */
    starSize?: number | null;
    /**
     * arcseconds: FWHM of its stars, from the pixels, else from the header; null when not known
     */
    starFwhm?: number | null;
    /**
     * dark-equivalent seconds: its exposure as a share of a reference frame under a dark sky at the zenith, regardless of the verdict; null when unknown
     */
    effectiveSeconds?: number | null;
    /**
     * measured: sky and transparency both come from levels and star fluxes
     */
    effectiveFrom?: "measured" | "modelled";
    /**
     * magnitudes per square arcsecond by which moonlight brightens the sky at the target, modelled for a clear sky; 0 with the Moon down
     */
    moonBrightening?: number | null;
  }[];
  /**
   * how the fields of two trains lie on each other
   */
  pairs?: {
    target: string;
    /**
     * @minItems 2
     * @maxItems 2
     */
    trains: [string, string];
    scaleRatio: number;
    /**
     * degrees
     */
    rotation: number;
    offsetArcsec: number;
    overlap: {
      [k: string]: number;
    };
    flexureArcsecPerHour: number | null;
    matched: number;
  }[];
  clocks?: {
    train: string;
    source: "headers" | "log";
    /**
     * seconds that this clock is ahead of the time the report keeps; negative: behind
     */
    aheadSeconds: number;
    uncertaintySeconds: number;
    /**
     * whether its times were shifted by that, or a step was taken out
     */
    corrected: boolean;
    /**
     * it was set forward by so much in the night, which was corrected
     */
    stepSeconds?: number;
    /**
     * what tells
     */
    by: string;
    /**
     * false: another offset is not excluded, and times are left as written
     */
    known: boolean;
    /**
     * false: where clocks differ, nothing tells which one is right
     */
    absolute: boolean;
  }[];
  sky: {
    sunset: string | null;
    sunrise: string | null;
    dusk: string | null;
    dawn: string | null;
    moon: {
      illumination: number;
      rise: string | null;
      set: string | null;
    };
  } | null;
  /**
   * length of the frame that effective seconds are counted in; one for the rig, on all nights
   */
  referenceSub?: number;
  /**
   * moonless sky at the zenith, V magnitudes per square arcsecond, that effective seconds are computed from
   */
  darkSky?: {
    magnitude: number;
    assumed: boolean;
  };
  findings: {
    id: string;
    title: string;
    /**
     * seconds
     */
    costSeconds: number;
    evidence: string[];
    advice: string;
    /**
     * seconds
     */
    winSeconds?: number;
    /**
     * what it cost, or would win, where that is no time: pixels on a sub, % of the field
     */
    price?: string;
    frames?: number;
    confidence?: "high" | "medium" | "low";
    /**
     * to be put right before anything that is counted in minutes
     */
    isFirst?: true;
    /**
     * sub lengths that the advice needs new darks for
     */
    newDarks?: string[];
    /**
     * to be heeded where the advice is followed
     */
    caution?: string;
  }[];
  notAssessed?: {
    id: string;
    title: string;
    missing: string;
  }[];
  replay?: {
    /**
     * (replayed − kept) ÷ kept integration of the night’s own rules; null when nothing was kept
     */
    error: number | null;
    confidence: "high" | "medium" | "low";
    runs: number;
    /**
     * per train; means over the runs
     */
    asItWas: {
      [k: string]: {
        /**
         * seconds
         */
        kept: number;
        /**
         * frames not kept
         */
        lostOrDoubtful: number;
        /**
         * seconds
         */
        waited: number;
      };
    };
    whatIfs: {
      id: string;
      title: string;
      /**
       * the changed rules, as `replay --set` takes them
       */
      settings: string[];
      /**
       * kept integration gained, all trains together, mean
       */
      gainSeconds: number;
      /**
       * 10th and 90th percentile
       *
       * @minItems 2
       * @maxItems 2
       *
       * Items: seconds, less than nothing for a loss
       */
      gainRange: [number, number];
      /**
       * per train; means over the runs
       */
      trains: {
        [k: string]: {
          /**
           * seconds
           */
          kept: number;
          /**
           * frames not kept
           */
          lostOrDoubtful: number;
          /**
           * seconds
           */
          waited: number;
        };
      };
      /**
       * why it is not advised; empty within the limits of docs/replay.md
       */
      outside?: string[];
      /**
       * sub lengths that need darks of their own
       */
      newDarks?: string[];
    }[];
    best: {
      id: string;
      title: string;
      /**
       * the changed rules, as `replay --set` takes them
       */
      settings: string[];
      /**
       * kept integration gained, all trains together, mean
       */
      gainSeconds: number;
      /**
       * 10th and 90th percentile
       *
       * @minItems 2
       * @maxItems 2
       *
       * Items: seconds, less than nothing for a loss
       */
      gainRange: [number, number];
      /**
       * per train; means over the runs
       */
      trains: {
        [k: string]: {
          /**
           * seconds
           */
          kept: number;
          /**
           * frames not kept
           */
          lostOrDoubtful: number;
          /**
           * seconds
           */
          waited: number;
        };
      };
      /**
       * why it is not advised; empty within the limits of docs/replay.md
       */
      outside?: string[];
      /**
       * sub lengths that need darks of their own
       */
      newDarks?: string[];
    } | null;
  };
  warnings: {
    code: string;
    message: string;
    source?: string;
    count?: number;
  }[];
  archive?: {
    /**
     * what the archive knows the session folder by
     */
    session: string;
    /**
     * path of the night’s report.html, relative to the archive
     */
    report: string | null;
    /**
     * the twilight asked for
     */
    darkness: "civil" | "nautical" | "astronomical";
    /**
     * degrees
     */
    minimumAltitude?: number;
    horizon?: [number, number][];
    goals: {
      name: string;
      aliases: string[];
      /**
       * degrees
       */
      ra: number;
      /**
       * degrees
       */
      dec: number;
      /**
       * hours per filter
       */
      hours: {
        [k: string]: number;
      };
      perTrain?: {
        /**
         * hours per filter
         */
        [k: string]: {
          [k: string]: number;
        };
      };
      ratio?: {
        totalHours: number;
        parts: {
          [k: string]: number;
        };
      };
      totalHours?: number;
    }[];
  };
  /**
   * what the stages of the night gave, from which the report can be made again
   */
  stages?: {
    encoding: "gzip+base64";
    data: string;
  };
  /**
   * in an archive, where a night stands on several sessions: the record of each
   */
  parts?: {
    schema: "nightledger/night/1";
    generator: {
      name: string;
      version: string;
    };
    night: string;
    site: {
      name: string | null;
      /**
       * degrees
       */
      latitude: number;
      /**
       * degrees
       */
      longitude: number;
      /**
       * metres
       */
      elevation: number | null;
      timezone: string;
    } | null;
    window: {
      /**
       * RFC 3339, UTC
       */
      start: string;
      /**
       * RFC 3339, UTC
       */
      end: string;
      kind: "civil" | "nautical" | "astronomical" | "sunset" | "sun-minimum" | "activity";
      note?: string;
    };
    trains: {
      id: string;
      role: "pilot" | "companion";
      /**
       * arcseconds per pixel
       */
      pixelScale?: number;
      /**
       * free aperture, millimetres
       */
      aperture?: number;
    }[];
    targets: {
      name: string;
      aliases?: string[];
      /**
       * degrees
       */
      ra: number;
      /**
       * degrees
       */
      dec: number;
    }[];
    headersOnly: boolean;
    totals: {
      target: string;
      filter: string;
      train: string;
      frames: {
        taken: number;
        kept: number;
        doubtful: number;
        lost: number;
      };
      seconds: {
        /**
         * seconds
         */
        taken: number;
        /**
         * seconds
         */
        kept: number;
        /**
         * seconds
         */
        doubtful: number;
        /**
         * seconds
         */
        lost: number;
      };
      /**
       * dark-equivalent seconds of the kept frames; null when not known. Not to be added up over filters or trains
       */
      effectiveSeconds?: number | null;
      /**
       * dark-equivalent seconds that moonlight took from the kept frames
       */
      moonCostSeconds?: number | null;
      effectiveBasis?: {
        /**
         * background levels in the headers, or a model of a clear moonlit sky
         */
        sky: "measured" | "modelled" | "mixed";
        /**
         * flux of the same stars in the headers, or extinction of a clear sky
         */
        transparency: "measured" | "modelled" | "mixed";
        /**
         * sky-limited: read noise or sky in electrons unknown
         */
        noise: "read-noise" | "sky-limited";
        /**
         * length of the reference frame
         */
        referenceSeconds: number;
        /**
         * electrons per second and pixel of the moonless zenith sky that is counted against; null when not known
         */
        zenithSky?: number | null;
        /**
         * night: its own, so that hours of other nights are not to be added
         */
        zenithFrom?: "rig-file" | "model" | "night";
      };
      /**
       * dark-equivalent seconds at least and at most, and what leaves room between
       */
      effectiveRange?: {
        /**
         * seconds
         */
        low: number;
        /**
         * seconds
         */
        high: number;
        doubts: ("clear-air" | "clear-nights" | "moon-model" | "sky-of-nights")[];
      };
    }[];
    ledger: {
      train: string;
      account:
        | "kept"
        | "doubtful"
        | "lost"
        | "readout"
        | "dither-wait"
        | "dither"
        | "focus"
        | "filter"
        | "pointing"
        | "guiding"
        | "hold"
        | "partner-wait"
        | "unexplained";
      /**
       * seconds
       */
      seconds: number;
    }[];
    /**
     * where in the night the ledger’s unexplained time lies
     */
    idle?: {
      train: string;
      /**
       * not dark enough for the filter
       */
      twilight: number;
      /**
       * dark enough, but the target below its limit
       */
      low: number;
      /**
       * unused before the first exposure
       */
      before: number;
      /**
       * unused after the last exposure
       */
      after: number;
      /**
       * between exposures, for a reason that no log tells
       */
      between: number;
    }[];
    dithers: {
      /**
       * RFC 3339, UTC
       */
      begin: string;
      waits: {
        /**
         * seconds
         */
        [k: string]: number;
      };
      holder: string | null;
      /**
       * seconds
       */
      moveSeconds: number;
      settleSeconds: number | null;
      inferred?: boolean;
    }[];
    frames: {
      /**
       * relative path; null when the log tells of a frame whose file is missing
       */
      file: string | null;
      /**
       * SHA-256 over the exposure’s header cards: the frame’s identity when files move
       */
      identity?: string;
      train: string;
      target: string | null;
      filter: string | null;
      /**
       * RFC 3339, UTC
       */
      begin: string;
      /**
       * seconds
       */
      seconds: number;
      verdict: "kept" | "doubtful" | "lost";
      causes: {
        kind:
          | "mount-motion"
          | "guiding-off"
          | "cut-short"
          | "no-sky"
          | "rough-guiding"
          | "trailed"
          | "doubled"
          | "swollen"
          | "dimmed"
          | "other-filter"
          | "low"
          | "twilight";
        /**
         * the evidence that decided; absent in older records
         */
        by?: "pixels" | "displacement" | "duration" | "guiding" | "sky" | "header";
        /**
         * RFC 3339, UTC
         */
        from: string;
        /**
         * RFC 3339, UTC
         */
        to: string;
        /**
         * seconds
         */
        overlapSeconds: number;
        causedBy?: string;
        evidence: string;
      }[];
      /**
       * causes that better evidence has set aside
       */
      cleared?: {
        kind:
          | "mount-motion"
          | "guiding-off"
          | "cut-short"
          | "no-sky"
          | "rough-guiding"
          | "trailed"
          | "doubled"
          | "swollen"
          | "dimmed"
          | "other-filter"
          | "low"
          | "twilight";
        /**
         * what cleared it
         */
        by: "pixels" | "displacement" | "duration" | "guiding" | "sky" | "header";
        evidence: string;
      }[];
      stars?: {
        by: "full" | "strips";
        count: number;
        /**
         * pixels
         */
        fwhm: number | null;
        fwhmUncertainty: number | null;
        /**
         * pixels
         */
        halfFlux: number | null;
        /**
         * a/b, 1 for a round star
         */
        elongation: number | null;
        direction: number | null;
        /**
         * standard errors, each in its figure’s unit
         */
        uncertainties?: {
          halfFlux: number | null;
          elongation: number | null;
          direction: number | null;
          background: number | null;
          noise: number | null;
          flux: number | null;
        };
        /**
         * 0 (directions any way) to 1 (all one way)
         */
        agreement: number | null;
        /**
         * ADU
         */
        background: number;
        /**
         * ADU
         */
        noise: number;
        /**
         * where electrons per ADU are known
         */
        electronsPerSecond?: {
          /**
           * per pixel, less the header’s pedestal where it states one
           */
          background: number;
          /**
           * per pixel
           */
          noise: number;
        };
        /**
         * relative to the best third of its group
         */
        flux: number | null;
        /**
         * every star appears twice
         */
        doubled?: {
          /**
           * sensor pixels from each star to its fainter image
           */
          x: number;
          y: number;
          /**
           * of the light in the fainter image
           */
          share: number;
          /**
           * height above all other offsets, in their spread
           */
          significance: number;
        };
        /**
         * share of the read pixels
         */
        saturated: number;
        shift: {
          /**
           * pixels of the reference frame
           */
          x: number;
          y: number;
          /**
           * degrees
           */
          rotation: number;
          matched: number;
        } | null;
      } | null;
      moonSeparation: number | null;
      moonAltitude: number | null;
      altitude: number | null;
      airmass: number | null;
      /**
       * arcseconds, total of both axes
       */
      guidingRms?: number | null;
      /**
       * pixels, as the header has it
       */
      starSize?: number | null;
      /**
       * arcseconds: FWHM of its stars, from the pixels, else from the header; null when not known
       */
      starFwhm?: number | null;
      /**
       * dark-equivalent seconds: its exposure as a share of a reference frame under a dark sky at the zenith, regardless of the verdict; null when unknown
       */
      effectiveSeconds?: number | null;
      /**
       * measured: sky and transparency both come from levels and star fluxes
       */
      effectiveFrom?: "measured" | "modelled";
      /**
       * magnitudes per square arcsecond by which moonlight brightens the sky at the target, modelled for a clear sky; 0 with the Moon down
       */
      moonBrightening?: number | null;
    }[];
    /**
     * how the fields of two trains lie on each other
     */
    pairs?: {
      target: string;
      /**
       * @minItems 2
       * @maxItems 2
       */
      trains: [string, string];
      scaleRatio: number;
      /**
       * degrees
       */
      rotation: number;
      offsetArcsec: number;
      overlap: {
        [k: string]: number;
      };
      flexureArcsecPerHour: number | null;
      matched: number;
    }[];
    clocks?: {
      train: string;
      source: "headers" | "log";
      /**
       * seconds that this clock is ahead of the time the report keeps; negative: behind
       */
      aheadSeconds: number;
      uncertaintySeconds: number;
      /**
       * whether its times were shifted by that, or a step was taken out
       */
      corrected: boolean;
      /**
       * it was set forward by so much in the night, which was corrected
       */
      stepSeconds?: number;
      /**
       * what tells
       */
      by: string;
      /**
       * false: another offset is not excluded, and times are left as written
       */
      known: boolean;
      /**
       * false: where clocks differ, nothing tells which one is right
       */
      absolute: boolean;
    }[];
    sky: {
      sunset: string | null;
      sunrise: string | null;
      dusk: string | null;
      dawn: string | null;
      moon: {
        illumination: number;
        rise: string | null;
        set: string | null;
      };
    } | null;
    /**
     * length of the frame that effective seconds are counted in; one for the rig, on all nights
     */
    referenceSub?: number;
    /**
     * moonless sky at the zenith, V magnitudes per square arcsecond, that effective seconds are computed from
     */
    darkSky?: {
      magnitude: number;
      assumed: boolean;
    };
    findings: {
      id: string;
      title: string;
      /**
       * seconds
       */
      costSeconds: number;
      evidence: string[];
      advice: string;
      /**
       * seconds
       */
      winSeconds?: number;
      /**
       * what it cost, or would win, where that is no time: pixels on a sub, % of the field
       */
      price?: string;
      frames?: number;
      confidence?: "high" | "medium" | "low";
      /**
       * to be put right before anything that is counted in minutes
       */
      isFirst?: true;
      /**
       * sub lengths that the advice needs new darks for
       */
      newDarks?: string[];
      /**
       * to be heeded where the advice is followed
       */
      caution?: string;
    }[];
    notAssessed?: {
      id: string;
      title: string;
      missing: string;
    }[];
    replay?: {
      /**
       * (replayed − kept) ÷ kept integration of the night’s own rules; null when nothing was kept
       */
      error: number | null;
      confidence: "high" | "medium" | "low";
      runs: number;
      /**
       * per train; means over the runs
       */
      asItWas: {
        [k: string]: {
          /**
           * seconds
           */
          kept: number;
          /**
           * frames not kept
           */
          lostOrDoubtful: number;
          /**
           * seconds
           */
          waited: number;
        };
      };
      whatIfs: {
        id: string;
        title: string;
        /**
         * the changed rules, as `replay --set` takes them
         */
        settings: string[];
        /**
         * kept integration gained, all trains together, mean
         */
        gainSeconds: number;
        /**
         * 10th and 90th percentile
         *
         * @minItems 2
         * @maxItems 2
         *
         * Items: seconds, less than nothing for a loss
         */
        gainRange: [number, number];
        /**
         * per train; means over the runs
         */
        trains: {
          [k: string]: {
            /**
             * seconds
             */
            kept: number;
            /**
             * frames not kept
             */
            lostOrDoubtful: number;
            /**
             * seconds
             */
            waited: number;
          };
        };
        /**
         * why it is not advised; empty within the limits of docs/replay.md
         */
        outside?: string[];
        /**
         * sub lengths that need darks of their own
         */
        newDarks?: string[];
      }[];
      best: {
        id: string;
        title: string;
        /**
         * the changed rules, as `replay --set` takes them
         */
        settings: string[];
        /**
         * kept integration gained, all trains together, mean
         */
        gainSeconds: number;
        /**
         * 10th and 90th percentile
         *
         * @minItems 2
         * @maxItems 2
         *
         * Items: seconds, less than nothing for a loss
         */
        gainRange: [number, number];
        /**
         * per train; means over the runs
         */
        trains: {
          [k: string]: {
            /**
             * seconds
             */
            kept: number;
            /**
             * frames not kept
             */
            lostOrDoubtful: number;
            /**
             * seconds
             */
            waited: number;
          };
        };
        /**
         * why it is not advised; empty within the limits of docs/replay.md
         */
        outside?: string[];
        /**
         * sub lengths that need darks of their own
         */
        newDarks?: string[];
      } | null;
    };
    warnings: {
      code: string;
      message: string;
      source?: string;
      count?: number;
    }[];
    archive?: {
      /**
       * what the archive knows the session folder by
       */
      session: string;
      /**
       * path of the night’s report.html, relative to the archive
       */
      report: string | null;
      /**
       * the twilight asked for
       */
      darkness: "civil" | "nautical" | "astronomical";
      /**
       * degrees
       */
      minimumAltitude?: number;
      horizon?: [number, number][];
      goals: {
        name: string;
        aliases: string[];
        /**
         * degrees
         */
        ra: number;
        /**
         * degrees
         */
        dec: number;
        /**
         * hours per filter
         */
        hours: {
          [k: string]: number;
        };
        perTrain?: {
          /**
           * hours per filter
           */
          [k: string]: {
            [k: string]: number;
          };
        };
        ratio?: {
          totalHours: number;
          parts: {
            [k: string]: number;
          };
        };
        totalHours?: number;
      }[];
    };
    /**
     * what the stages of the night gave, from which the report can be made again
     */
    stages?: {
      encoding: "gzip+base64";
      data: string;
    };
  }[];
}

export declare const SCHEMA_ID = "nightledger/night/1";
/** The record of one session; a night of several has one for each. */
export type SessionRecord = Omit<NightRecord, 'parts'>;
export type FrameRecord = NightRecord['frames'][number];
