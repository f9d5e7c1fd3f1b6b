import { create } from 'zustand';
import { subscribeWithSelector } from 'zustand/middleware';
import { type DrawOptions, usualOptions } from './draw-options.ts';
import type { Place } from './tool.ts';
import type { ToolId } from './tool-list.ts';
import type { Size, View } from './view.ts';

/** Something to do, in words. */
export type Offer = { readonly words: string; readonly act: () => void };

export type DrawState = {
  readonly toolId: ToolId;
  /** State of the tool in hand; undefined: its start. */
  readonly toolState: unknown;
  /** Where the pointer or the crosshair is. */
  readonly place?: Place | undefined;
  /** The crosshair is shown once a key has moved it, until the pointer moves. */
  readonly byKeys: boolean;
  readonly view?: View | undefined;
  readonly size?: Size | undefined;
  readonly note?: string | undefined;
  /** A duct just drawn, whose fittings are to be confirmed. */
  readonly confirm?: { readonly system: string; readonly part: string } | undefined;
  /** What could be done instead of what was refused. */
  readonly offers?: readonly Offer[] | undefined;
  readonly options: DrawOptions;
  /** Larger handles and buttons, for a finger or a gloved hand. */
  readonly field: boolean;
  readonly snaps: boolean;
};

const coarse = (): boolean => window.matchMedia('(pointer: coarse)').matches;

/** How the drawing stands that is on the screen; nothing of it belongs to the job. */
export const useDraw = create<DrawState>()(
  subscribeWithSelector(
    (): DrawState => ({
      toolId: 'select',
      toolState: undefined,
      byKeys: false,
      options: usualOptions,
      field: coarse(),
      snaps: true,
    }),
  ),
);

/** Takes up a tool; what another one had begun is dropped. */
export const takeTool = (toolId: ToolId): void =>
  useDraw.setState({ toolId, toolState: undefined, note: undefined, offers: undefined, confirm: undefined });

export const setOption = <Key extends keyof DrawOptions>(key: Key, value: DrawOptions[Key]): void =>
  useDraw.setState(({ options }) => ({ options: { ...options, [key]: value } }));
