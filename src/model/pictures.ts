/** A picture for the page: encoded, and its size in px. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** `data:image/jpeg;base64,…` */
  readonly uri: string;
}

/** The same stars in a frame that is not kept and in a kept one. */
export interface StarStrip {
  /** Ids of the frames. */
  readonly frame: string;
  readonly beside: string;
  readonly stars: number;
  readonly picture: Picture;
  readonly besidePicture: Picture;
}

/** The sharpest frame of a target and train, in full. */
export interface FieldPicture {
  readonly frame: string;
  readonly train: string;
  readonly target: string;
  readonly filter: string;
  readonly picture: Picture;
}

/** Pictures made from the night's pixels. They are only in the report: the record holds none. */
export interface NightPictures {
  readonly strips: readonly StarStrip[];
  readonly fields: readonly FieldPicture[];
}
