/** What is used of the package: its own types are written for bundlers and do not resolve in Node. */
declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  export class Rectangle {
    constructor(width: number, height: number, x: number, y: number, rot: boolean, allowRotation: boolean);
    readonly x: number;
    readonly y: number;
    readonly rot: boolean;
    readonly oversized: boolean;
    data: number;
  }

  export interface PackerOptions {
    readonly smart: boolean;
    readonly pot: boolean;
    readonly square: boolean;
    readonly allowRotation: boolean;
    /** 0: by area; 1: by longest edge; 2: fills the width first. */
    readonly logic: 0 | 1 | 2;
  }

  export class MaxRectsPacker {
    constructor(width: number, height: number, padding: number, options: PackerOptions);
    readonly bins: readonly { readonly rects: readonly Rectangle[] }[];
    readonly rects: readonly Rectangle[];
    add(rect: Rectangle): Rectangle;
    addArray(rects: readonly Rectangle[]): void;
  }
}
