import { parseQuantity } from '@airledger/engine';
import { type KeyboardEvent, useState } from 'react';
import { useWorkbench } from '../state/store.ts';
import { useDraw } from './draw-store.ts';
import { hear } from './hear.ts';
import type { Field } from './tool.ts';
import { tools } from './tools.ts';

const defaultUnit = { ip: 'ft', si: 'm' } as const;

/** SI value of what was typed; a bare number counts in the unit of the day. */
export const typedValue = (
  text: string,
  { dimension }: Field,
  units: 'ip' | 'si',
): number | undefined | { readonly problem: string } => {
  const trimmed = text.trim();
  if (trimmed === '') return undefined;
  const bare = /^-?[\d.]+$/.test(trimmed);
  const unit = dimension === 'angle' ? '°' : ` ${defaultUnit[units]}`;
  const parsed = parseQuantity(bare ? `${trimmed}${unit}` : trimmed, dimension);
  return 'problem' in parsed ? { problem: `"${trimmed}" ${parsed.problem}` } : parsed.value;
};

const toBoard = (): void =>
  document.querySelector<SVGSVGElement>('.canvas svg')?.focus({ preventScroll: true });

/** The crosshair goes to the point that was typed, so that what comes next counts from there. */
const toLast = (): void => {
  const { toolId, toolState } = useDraw.getState();
  const last = toolState === undefined ? undefined : tools[toolId].last?.(toolState);
  if (last) useDraw.setState({ place: { raw: last, at: last, on: 'point' }, byKeys: true });
};

/** What can be typed into the drawing at hand: width and depth, length and direction, a place. */
export const TypedFields = () => {
  const { toolId, toolState } = useDraw();
  const tool = tools[toolId];
  const fields = tool.fields?.(toolState ?? tool.start) ?? [];
  const labels = fields.map(({ label }) => label).join(' ');
  return fields.length === 0 ? null : <Inputs key={`${toolId} ${labels}`} fields={fields} />;
};

const Inputs = ({ fields }: { fields: readonly Field[] }) => {
  const units = useWorkbench((state) => state.units);
  const [texts, setTexts] = useState<readonly string[]>(fields.map(() => ''));
  const give = () => {
    const values = fields.map((field, i) => typedValue(texts[i] ?? '', field, units));
    const wrong = values.find((value) => typeof value === 'object');
    if (typeof wrong === 'object') {
      useDraw.setState({ note: wrong.problem });
      return;
    }
    const place = useDraw.getState().place ?? { raw: [0, 0], at: [0, 0], on: 'nothing' };
    if (values.every((value) => value === undefined)) {
      // Nothing typed: Enter is a click at the crosshair, as on the board.
      hear({ kind: 'press', place });
      hear({ kind: 'release', place });
    } else {
      hear({ kind: 'typed', values: values as (number | undefined)[], place });
      toLast();
    }
    setTexts(fields.map(() => ''));
    toBoard();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') give();
    else if (event.key === 'Escape') toBoard();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <span className="draw-typed">
      {fields.map((field, i) => (
        <label key={field.label}>
          {field.label}
          <input
            type="text"
            autoComplete="off"
            placeholder={field.dimension === 'angle' ? '°' : defaultUnit[units]}
            value={texts[i] ?? ''}
            onChange={(event) => setTexts((before) => before.with(i, event.target.value))}
            onKeyDown={onKeyDown}
          />
        </label>
      ))}
    </span>
  );
};
