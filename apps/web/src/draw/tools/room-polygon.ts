import { outlineTool } from './outline.ts';
import { roomDeed } from './room-rectangle.ts';

/** A room of any outline, corner by corner. */
export const roomPolygon = outlineTool('room', (points, context) => roomDeed({ outline_m: points }, context));
