import { type RefCallback, useCallback, useState } from 'react';
import type { Space } from './fit-plan.ts';

/** Size of an element on the screen, kept up as it changes; undefined until it is laid out. */
export const useSize = <Kind extends Element>(): [RefCallback<Kind>, Space | undefined] => {
  const [size, setSize] = useState<Space>();
  const watch = useCallback((element: Kind | null) => {
    if (!element) return undefined;
    const observer = new ResizeObserver(() => {
      const { clientWidth: width, clientHeight: height } = element;
      if (width > 0 && height > 0)
        setSize((before) =>
          before?.width === width && before.height === height ? before : { width, height },
        );
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [watch, size];
};
