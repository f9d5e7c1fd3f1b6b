import { type Dimension, dimensions } from '@airledger/engine';
import { useId, useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { letGo, tryValue } from '../state/actions.ts';
import type { SliderHandle } from '../trial/handles.ts';
import { parseTyped } from './parse-typed.ts';

const measures: Record<SliderHandle['measure'], Dimension> = {
  'leakage at 25 Pa': 'airflow',
  insulation: 'resistance',
  share: 'ratio',
  pressure: 'pressure',
};

/** A handle that moves or takes a typed value; the house is solved again while it moves. */
export const Slider = ({ handle, surveyed }: { handle: SliderHandle; surveyed: number }) => {
  const format = useFormat();
  const dimension = measures[handle.measure];
  const text = format.full(handle.value, dimension);
  const [typing, setTyping] = useState<string>();
  const [problem, setProblem] = useState<string>();
  const id = useId();
  const high = Math.max(handle.high, surveyed);
  const take = (typed: string) => {
    const parsed = parseTyped(typed, dimension, format.units);
    const fault =
      'problem' in parsed ? `it ${parsed.problem}` : outside(parsed.value, handle.low, handle.measure);
    setProblem(fault);
    if (fault !== undefined || 'problem' in parsed) return;
    tryValue(handle.id, parsed.value);
    letGo();
    setTyping(undefined);
  };
  const leave = () => {
    if (typing !== undefined && problem === undefined) take(typing);
  };
  return (
    <div className="slider">
      <label htmlFor={id}>{handle.label}</label>
      <input
        id={id}
        type="range"
        min={handle.low}
        max={high}
        step={(high - handle.low) / 200}
        value={handle.value}
        aria-valuetext={text}
        style={
          {
            '--filled': `${(100 * (handle.value - handle.low)) / Math.max(high - handle.low, 1e-9)}%`,
          } as React.CSSProperties
        }
        onChange={(event) => {
          setTyping(undefined);
          setProblem(undefined);
          tryValue(handle.id, Number(event.target.value));
        }}
        onPointerUp={letGo}
        onKeyUp={letGo}
        onBlur={letGo}
      />
      <input
        type="text"
        className="slider-value"
        aria-label={`${handle.label}, value`}
        aria-invalid={problem !== undefined}
        aria-describedby={problem ? `${id}-problem` : undefined}
        value={typing ?? text}
        onChange={(event) => {
          setTyping(event.target.value);
          setProblem(undefined);
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take(event.currentTarget.value);
          if (event.key !== 'Escape') return;
          setTyping(undefined);
          setProblem(undefined);
        }}
        onBlur={leave}
      />
      <button
        type="button"
        className="put-back"
        disabled={handle.value === surveyed}
        aria-label={`Put ${handle.label} back to ${format.full(surveyed, dimension)}`}
        title={`Put back to ${format.full(surveyed, dimension)}`}
        onClick={() => {
          tryValue(handle.id, surveyed);
          letGo();
        }}
      >
        ↺
      </button>
      {problem && (
        <p id={`${id}-problem`} className="slider-problem" role="alert">
          “{typing}” is not taken: {problem}. Type {dimensions[dimension].called}, as{' '}
          {dimensions[dimension].examples[format.units === 'ip' ? 0 : 1]}.
        </p>
      )}
    </div>
  );
};

const outside = (value: number, low: number, measure: SliderHandle['measure']): string | undefined => {
  if (value < Math.min(0, low)) return 'it is below zero';
  if (measure === 'share' && value > 1) return 'it is more than the whole';
  return undefined;
};
