declare module 'imagetracerjs' {
  interface Drawn {
    readonly type: 'L' | 'Q';
    readonly x1: number;
    readonly y1: number;
    readonly x2: number;
    readonly y2: number;
    /** Of a Q alone. */
    readonly x3: number;
    readonly y3: number;
  }
  const ImageTracer: {
    imagedataToTracedata(
      picture: { readonly width: number; readonly height: number; readonly data: Uint8ClampedArray },
      options: object,
    ): { readonly layers: readonly (readonly { readonly segments: readonly Drawn[] }[])[] };
  };
  export default ImageTracer;
}
