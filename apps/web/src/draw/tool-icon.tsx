import type { ToolId } from './tool-list.ts';

const lines: Readonly<Record<ToolId, string>> = {
  select: 'M5 3l11 8-5 1-2 5z',
  rectangle: 'M3 5h14v10H3z',
  polygon: 'M3 4h14v6h-6v6H3z',
  zone: 'M3 12L10 4l7 8M3 16h14',
  door: 'M4 16V5M4 5a11 11 0 0 1 11 11M2 16h16',
  window: 'M2 8h16v4H2zM10 8v4',
  transfer: 'M10 2v4M10 14v4M3 10h14M6 7l-3 3 3 3M14 7l3 3-3 3',
  airHandler: 'M4 4h12v12H4zM7 13l3-6 3 6M8 11h4',
  trunk: 'M2 7h16M2 13h16M2 7v6M18 7v6',
  run: 'M3 4v5q0 3 3 3h11M14 9l3 3-3 3',
  register: 'M3 6h14v8H3zM6 6v8M9 6v8M12 6v8M15 6v8',
  measure: 'M3 14L14 3l3 3L6 17zM7 10l2 2M10 7l2 2',
};

export const ToolIcon = ({ id }: { id: ToolId }) => (
  <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
    <path d={lines[id]} fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinejoin="round" />
  </svg>
);
