/**
 * A picture for the eye: the scan made light, with what was traced drawn over it, so that each line can be compared with its ink close up.
 */
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { FoundMarks } from './found-marks.ts';
import type { Picture } from './picture.ts';
import { drawPreview } from './reading/draw-preview.ts';

/** One panel as it was traced, in picture places. */
interface PreviewPanel {
  readonly outline: Path;
  readonly corners: readonly Point[];
  readonly within?: readonly Path[];
  readonly marks?: FoundMarks;
}

/** What was traced in one picture. */
export interface PreviewContent {
  readonly panels: readonly PreviewPanel[];
  /** The corners of the test square, in order. */
  readonly square?: readonly Point[];
  /** Of the picture; lines are as wide as suits paper. */
  readonly pxPerMm: number;
  /** The number of the first panel; the others count on. */
  readonly first?: number;
}

/** Up to here a picture is shown pixel by pixel; a larger one is reduced to the length below. */
const MOST_PIXELS = 12_000_000;
const REDUCED_SIDE = 4000;
/** An overlay longer than 32,767 pixels cannot be drawn. */
const LONGEST_SIDE = 32_000;

/**
 * A PNG of the picture with what was traced in it: full size up to 12 megapixels, else 4000 pixels along its longer side. The outlines are
 * unbroken and the heaviest, other lines that run round are dashed, marks dashed or dotted, corners open rings, the test square hatched;
 * all differ without their colours. The same picture and tracing give the same bytes, and the file says that staywright made it.
 */
export const previewPicture = async (picture: Picture, content: PreviewContent): Promise<Uint8Array> => {
  const { width, height, grey } = picture;
  const longer = Math.max(width, height);
  const whole = width * height <= MOST_PIXELS && longer <= LONGEST_SIDE;
  const factor = whole ? 1 : REDUCED_SIDE / longer;
  const size = { width: Math.max(1, Math.round(width * factor)), height: Math.max(1, Math.round(height * factor)) };
  const { default: sharp } = await import('sharp');
  sharp.cache(false);
  const drawn = drawPreview(content, size, { x: size.width / width, y: size.height / height });
  const base = sharp(grey, { raw: { width, height, channels: 1 }, limitInputPixels: false });
  const png = await (whole ? base : base.resize({ ...size, fit: 'fill' }))
    .composite([{ input: Buffer.from(drawn), limitInputPixels: false }])
    .removeAlpha()
    .withExif({ IFD0: { Software: 'staywright' } })
    .png({ compressionLevel: 3 })
    .toBuffer();
  return new Uint8Array(png.buffer, png.byteOffset, png.length);
};
