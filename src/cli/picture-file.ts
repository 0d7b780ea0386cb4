import { StaywrightError } from '../errors.ts';
import type { Scene } from '../ink/scene.ts';
import { dateOf } from './date-of.ts';
import type { WantedFile } from './plan-files.ts';
import { VERSION } from './version.ts';

const ENDINGS = ['.svg', '.png', '.pdf'] as const;

/** A picture as the file that an option names, SVG, PNG or PDF by its ending; another ending is refused. */
export const pictureFile = async (path: string, scene: () => Promise<Scene>, option: string): Promise<WantedFile> => {
  const ending = ENDINGS.find((each) => path.toLowerCase().endsWith(each));
  if (ending === undefined) {
    const stem = path === '' || path.endsWith('/') ? `${path}picture` : path.replace(/\.\w+$/, '');
    throw new StaywrightError('usage', `${path || 'no name'} ends in none of ${ENDINGS.join(', ')}`, {
      where: option,
      hint: `name it ${stem}.svg, ${stem}.png or ${stem}.pdf`,
    });
  }
  if (ending === '.svg') return { path, bytes: await pictureText(scene) };
  if (ending === '.png') {
    const { scenePng } = await import('../ink/scene-png.ts');
    return { path, bytes: await scenePng(await scene()) };
  }
  const { scenePdf } = await import('../ink/scene-pdf.ts');
  return { path, bytes: await scenePdf(await scene(), { version: VERSION, ...dateOf() }) };
};

/** A picture as SVG text. */
export const pictureText = async (scene: () => Promise<Scene>): Promise<string> => {
  const { sceneSvg } = await import('../ink/scene-svg.ts');
  return sceneSvg(await scene());
};
