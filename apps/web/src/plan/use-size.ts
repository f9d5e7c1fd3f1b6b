import { type RefObject, useLayoutEffect, useRef, useState } from 'react';
import type { Space } from './fit-plan.ts';

/** Size of an element on the screen, kept up as it changes; undefined until it is laid out. */
export const useSize = <Kind extends Element>(): [RefObject<Kind | null>, Space | undefined] => {
  const element = useRef<Kind>(null);
  const [size, setSize] = useState<Space>();
  useLayoutEffect(() => {
    const watched = element.current;
    if (!watched) return;
    const observer = new ResizeObserver(() => {
      const { clientWidth: width, clientHeight: height } = watched;
      if (width > 0 && height > 0)
        setSize((before) =>
          before?.width === width && before.height === height ? before : { width, height },
        );
    });
    observer.observe(watched);
    return () => observer.disconnect();
  }, []);
  return [element, size];
};
