import type { Tool } from './tool.ts';
import type { ToolId } from './tool-list.ts';
import { airHandler } from './tools/air-handler.ts';
import { run, trunk } from './tools/duct.ts';
import { measure } from './tools/measure.ts';
import { door, windowTool } from './tools/opening.ts';
import { register } from './tools/register.ts';
import { roomPolygon } from './tools/room-polygon.ts';
import { roomRectangle } from './tools/room-rectangle.ts';
import { selectTool } from './tools/select.ts';
import { transfer } from './tools/transfer.ts';
import { zone } from './tools/zone.ts';

/** The machine behind each tool. Each sees no state but its own. */
export const tools = {
  select: selectTool,
  rectangle: roomRectangle,
  polygon: roomPolygon,
  zone,
  door,
  window: windowTool,
  transfer,
  airHandler,
  trunk,
  run,
  register,
  measure,
} as Readonly<Record<ToolId, Tool<unknown>>>;
