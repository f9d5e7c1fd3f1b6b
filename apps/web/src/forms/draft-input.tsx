import { type InputHTMLAttributes, useState } from 'react';

type Props = Omit<InputHTMLAttributes<HTMLInputElement>, 'value' | 'onChange'> & {
  readonly value: string;
  /** Takes what was typed; false when it is refused, and what was typed then stays to be put right. */
  readonly onCommit: (text: string) => boolean;
  readonly onDraft?: () => void;
};

/** A text field that is taken on Enter or on leaving it; Escape brings the last good value back. */
export const DraftInput = ({ value, onCommit, onDraft, ...rest }: Props) => {
  const [draft, setDraft] = useState<string>();
  const take = (text: string) => {
    if (text === value || onCommit(text)) setDraft(undefined);
  };
  return (
    <input
      type="text"
      autoComplete="off"
      spellCheck={false}
      {...rest}
      value={draft ?? value}
      onChange={(event) => {
        setDraft(event.target.value);
        onDraft?.();
      }}
      onBlur={() => draft !== undefined && !rest['aria-invalid'] && take(draft)}
      onKeyDown={(event) => {
        if (event.key === 'Enter' && draft !== undefined) take(draft);
        if (event.key !== 'Escape' || draft === undefined) return;
        event.stopPropagation();
        setDraft(undefined);
        onDraft?.();
      }}
    />
  );
};
