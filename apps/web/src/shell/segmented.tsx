import { useId } from 'react';
import './segmented.css';

export type Choice<Value extends string> = { readonly value: Value; readonly words: string };

/** A few choices of which one holds: radio buttons that look like pills. */
export const Segmented = <Value extends string>({
  label,
  choices,
  value,
  onChange,
}: {
  label: string;
  choices: readonly Choice<Value>[];
  value: Value;
  onChange: (value: Value) => void;
}) => {
  const name = useId();
  return (
    <fieldset className="segmented">
      <legend className="unseen">{label}</legend>
      {choices.map((choice) => (
        <label key={choice.value}>
          <input
            type="radio"
            name={name}
            value={choice.value}
            checked={choice.value === value}
            onChange={() => onChange(choice.value)}
          />
          <span>{choice.words}</span>
        </label>
      ))}
    </fieldset>
  );
};
