/**
 * The picture at the size in which shapes are told apart, about 6 pixels a millimetre: what is measured is measured in the full picture.
 * Working pixel (i, j) covers `step` by `step` pixels of it, from (i * step, j * step).
 */
export interface WorkingPicture {
  readonly step: number;
  readonly width: number;
  readonly height: number;
  /** Mean light of each working pixel, 0 to 1. */
  readonly light: Float32Array;
  /** 1 where a working pixel is ink: clearly darker than the paper round it. In a picture of cut-out pieces, the ink on the pieces. */
  readonly ink: Uint8Array;
}
