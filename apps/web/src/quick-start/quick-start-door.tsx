import { lazy, Suspense } from 'react';
import { useQuickStart } from './quick-start-store.ts';

const Dialog = lazy(async () => ({ default: (await import('./quick-start-dialog.tsx')).QuickStartDialog }));

/** The form for a new house, loaded when it is asked for. */
export const QuickStartDoor = () => {
  const open = useQuickStart((state) => state.open);
  return open ? (
    <Suspense fallback={null}>
      <Dialog />
    </Suspense>
  ) : null;
};
