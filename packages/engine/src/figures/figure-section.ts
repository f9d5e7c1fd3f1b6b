import type { Section } from '../survey/types.ts';
import { FigureError } from './figure-error.ts';
import type { FigureOptions } from './types.ts';

const side = { dimension: 'size', least: 0.02, most: 3 } as const;

/** Options with which a figure asks for a round, rectangular or oval section. */
export const sectionOptions = {
  diameter: { ...side, help: 'Inside diameter of a round duct.', example: '6 in' },
  width: { ...side, help: 'Width of a rectangular duct.', example: '12 in' },
  height: { ...side, help: 'Height of a rectangular duct.', example: '8 in' },
  major: { ...side, help: 'Long side of a flat-oval duct.', example: '15 in' },
  minor: { ...side, help: 'Short side of a flat-oval duct.', example: '6 in' },
} as const satisfies FigureOptions;

type SectionInputs = { readonly [K in keyof typeof sectionOptions]?: number };

/**
 * The section that the options describe: a diameter, or width and height, or major and minor (m).
 * @throws FigureError unless exactly one of the three is complete.
 */
export function sectionOf({ diameter, width, height, major, minor }: SectionInputs): Section {
  const given = [diameter, width ?? height, major ?? minor].filter((value) => value !== undefined).length;
  if (given !== 1)
    throw new FigureError(
      'diameter',
      'one section: --diameter, or --width and --height, or --major and --minor',
      given === 0 ? 'Give the size of the duct.' : 'Give only one of them.',
    );
  if (diameter !== undefined) return { shape: 'round', diameter_m: diameter };
  if (width !== undefined || height !== undefined) {
    if (width === undefined) throw new FigureError('width', 'a width beside the height', 'Add --width.');
    if (height === undefined) throw new FigureError('height', 'a height beside the width', 'Add --height.');
    return { shape: 'rectangular', width_m: width, height_m: height };
  }
  if (major === undefined) throw new FigureError('major', 'a long side beside the short one', 'Add --major.');
  if (minor === undefined) throw new FigureError('minor', 'a short side beside the long one', 'Add --minor.');
  if (minor > major) throw new FigureError('minor', 'a short side below the long one', 'Swap the two.');
  return { shape: 'oval', major_m: major, minor_m: minor };
}
