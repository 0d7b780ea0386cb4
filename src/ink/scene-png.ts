import type { Scene } from './scene.ts';
import { sceneSvg } from './scene-svg.ts';

/** About 200 to the inch: fine lines stay fine, and a page is a few hundred kilobytes. */
const PIXELS_PER_MM = 8;

/** No side is longer; a larger picture is drawn with fewer pixels a millimetre. */
const LONGEST_SIDE = 12_000;

/**
 * The picture as PNG. Letters are drawn as outlines from the fonts that ship with the tool, so it looks the same on every machine; the file
 * says how many pixels make a millimetre and that staywright made it. The same scene gives the same bytes.
 */
export const scenePng = async (scene: Scene): Promise<Uint8Array> => {
  const { Resvg } = await import('@resvg/resvg-js');
  const scale = Math.min(PIXELS_PER_MM, LONGEST_SIDE / Math.max(scene.width, scene.height));
  const svg = sceneSvg(scene, 'outlines').replace(/ width="[^"]*mm" height="[^"]*mm"/, '');
  const drawn = new Resvg(svg, { fitTo: { mode: 'zoom', value: scale }, font: { loadSystemFonts: false } });
  return withFacts(drawn.render().asPng(), scale);
};

/** Of the signature and the header, behind which further facts may stand: Portable Network Graphics, third edition, 5.2 and 11.2.1. */
const HEADER_END = 8 + 25;

const withFacts = (png: Uint8Array, pixelsPerMm: number): Uint8Array => {
  const density = Buffer.alloc(9);
  const perMetre = Math.round(pixelsPerMm * 1000);
  density.writeUInt32BE(perMetre, 0);
  density.writeUInt32BE(perMetre, 4);
  density.writeUInt8(1, 8);
  const facts = [chunk('tEXt', Buffer.from('Software\0staywright', 'latin1')), chunk('pHYs', density)];
  return Buffer.concat([png.subarray(0, HEADER_END), ...facts, png.subarray(HEADER_END)]);
};

const chunk = (type: string, data: Uint8Array): Buffer => {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  body.copy(framed, 4);
  framed.writeUInt32BE(crc32(body), body.length + 4);
  return framed;
};

/** Cyclic redundancy code of ISO 3309, as the same standard asks for in 5.5. */
const crc32 = (bytes: Uint8Array): number => {
  let code = 0xff_ff_ff_ff;
  for (const byte of bytes) {
    code ^= byte;
    for (let bit = 0; bit < 8; bit += 1) code = code & 1 ? (code >>> 1) ^ 0xed_b8_83_20 : code >>> 1;
  }
  return ~code >>> 0;
};
