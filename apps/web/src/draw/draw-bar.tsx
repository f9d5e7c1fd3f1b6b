import { takeTool, useDraw } from './draw-store.ts';
import { toBoard } from './to-board.ts';
import { ToolIcon } from './tool-icon.tsx';
import { toolList } from './tool-list.ts';

/** The tools, each with its key. */
export const DrawBar = () => {
  const toolId = useDraw((state) => state.toolId);
  const field = useDraw((state) => state.field);
  return (
    <div className={field ? 'draw-bar field' : 'draw-bar'} role="toolbar" aria-label="Tools">
      {toolList.map(({ id, name, key }) => (
        <button
          key={id}
          type="button"
          aria-pressed={toolId === id}
          aria-keyshortcuts={key}
          title={`${name} (${key})`}
          onClick={() => {
            takeTool(id);
            toBoard();
          }}
        >
          <ToolIcon id={id} />
          <span className="tool-name">{name}</span>
          <span className="tool-key" data-key={key} />
        </button>
      ))}
    </div>
  );
};
