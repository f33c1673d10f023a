/** What effective integration leaves out, and its formulas: the same on every page. */
export const LIMITS: readonly string[] = [
  'The sky is modelled as clear, with the Moon’s part good to about 20 % in V and ±0.3 mag in other bands. The model ' +
    'overrates a low Moon, whose light sets in at once at moonrise, underrates one within 7° of full, and has a ' +
    'published step 10° from the Moon. It is not photometry.',
  'Cloud and haze count where the flux of the stars was measured. Elsewhere the air is taken to be clear; nothing is ' +
    'concluded about transparency from the brightness of the sky.',
  'Twilight is left out, and so is artificial light, except for its share in the brightness of the dark sky.',
  'Where read noise or the sky in electrons is not known, the sky is taken to be the only noise. Read noise hides ' +
    'part of the effect of moonlight, so moonlit subs are then worth a little more than stated.',
  'Seeing is left out: it matters for stars and small objects, not for extended nebulae.',
  'Effective times of different filters or trains measure different things and are never added up.',
];

export const FORMULAS: readonly { readonly name: string; readonly text: string }[] = [
  {
    name: 'Effective share',
    text:
      'g = τ²·(b0 + d + R²/t0) ÷ (b + d + R²/t): sky b, dark current d, read noise R, exposure t; b0 dark sky at ' +
      'the zenith, t0 the reference sub. Sky-limited: τ²·b0/b. From the signal-to-noise ratio of a camera ' +
      '(Merline & Howell 1995), as surveys count effective time (Neilsen et al. 2016, Schlafly et al. 2023).',
  },
  {
    name: 'Transparency',
    text:
      'τ = 10^(−0.4·k·(X − 1)), air mass X after Kasten & Young 1989; k from the Palomar table, scaled to the ' +
      'site’s height.',
  },
  {
    name: 'Moonlight',
    text: 'Krisciunas & Schaefer 1991, with k of the filter; the dark sky away from the zenith by their equation 2.',
  },
  {
    name: 'Stack',
    text:
      'weighted by τ/σ²: Σ t·g. Plain mean of N frames: N²·t ÷ Σ(1/g). A frame lowers it when 1/g > (2 + ' +
      '1/N)·mean(1/g) of the others.',
  },
  { name: 'Extra noise', text: 'root of (1 + R²/(B·t)), less 1, with B of sky and dark current.' },
];
