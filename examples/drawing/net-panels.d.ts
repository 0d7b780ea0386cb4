/** One of the three sizes: its number, and how its girth and the height of each end differ from size 2, in mm. */
export interface Size {
  readonly number: number;
  readonly girth: number;
  readonly height: number;
}

/** x of a seam at a height. */
export type Seam = (height: number) => { readonly x: number; readonly slope: number; readonly bend: number };

export interface NetPanel {
  readonly name: string;
  readonly front: Seam;
  readonly back: Seam;
  readonly frontSeam: string;
  readonly backSeam: string;
  readonly frontEnds: { readonly top: number; readonly bottom: number };
  readonly backEnds: { readonly top: number; readonly bottom: number };
}

export declare const SIZES: readonly Size[];
export declare const LEVELS: Readonly<Record<string, number>>;
export declare const ALLOWANCE: number;
export declare function seamLength(seam: Seam, from: number, to: number): number;
export declare function netPanels(size: Size): readonly NetPanel[];
