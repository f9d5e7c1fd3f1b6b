import { type FileType, type Job, lengthText, pointText, siOf, uniqueId } from '@airledger/job';
import { useRef, useState } from 'react';
import { keepFile, sha256Of } from '../keeping/files.ts';
import { useWorkbench } from '../state/store.ts';
import { useDraw } from './draw-store.ts';
import { perform } from './hear.ts';
import { underlayOn } from './tools/measure.ts';
import { fitted } from './view.ts';

/** A picture laid under a storey is this wide until it is scaled, m. */
const firstWidth_m = 15;

const lay = async (file: File, page: number): Promise<void> => {
  const { storey, units } = useWorkbench.getState();
  useDraw.setState({ note: `Reading ${file.name} …` });
  try {
    const { readPlan } = await import('./read-plan.ts');
    const { blob, width, height } = await readPlan(file, page);
    const sha256 = await sha256Of(await blob.arrayBuffer());
    await keepFile(sha256, blob);
    const problem = perform({
      label: 'Lay a picture under the drawing',
      change: (job) => ({
        ...job,
        underlays: [
          ...(job.underlays ?? []).filter((each) => (each.storey ?? 1) !== storey),
          {
            id: uniqueId(job, 'underlay'),
            sha256,
            ...(storey !== 1 && { storey }),
            corner: pointText([0, 0], units),
            width: lengthText(firstWidth_m, units),
            dim: '40 %',
          },
        ],
      }),
    });
    const { size } = useDraw.getState();
    useDraw.setState({
      ...(size && {
        view: fitted(
          [
            [0, 0],
            [firstWidth_m, (firstWidth_m * height) / width],
          ],
          size,
        ),
      }),
      note: problem ?? 'Now click two points whose distance you know, and type it.',
      toolState: undefined,
    });
  } catch (error) {
    useDraw.setState({ note: (error as Error).message });
  }
};

const change = (label: string, id: string, fields: Partial<NonNullable<Job['underlays']>[number]>): void => {
  const problem = perform({
    label,
    change: (job) => ({
      ...job,
      underlays: job.underlays!.map((each) => (each.id === id ? { ...each, ...fields } : each)),
    }),
  });
  useDraw.setState({ note: problem });
};

/** The picture under a storey: chosen, faded, turned, taken away. It is scaled with the tool itself. */
export const UnderlayOptions = ({ job }: { job: Job }) => {
  const storey = useWorkbench((state) => state.storey);
  const input = useRef<HTMLInputElement>(null);
  const [page, setPage] = useState(1);
  const underlay = underlayOn(job, storey);
  const turn = underlay ? (siOf(underlay.rotation, 'angle') ?? 0) : 0;
  return (
    <>
      <label className="draw-option">
        Page of a PDF
        <input
          type="number"
          min="1"
          step="1"
          value={page}
          onChange={(event) => setPage(Math.max(1, Math.round(event.target.valueAsNumber) || 1))}
        />
      </label>
      <button type="button" className="plain-button" onClick={() => input.current?.click()}>
        {underlay ? 'Another picture …' : 'Picture or PDF under the drawing …'}
      </button>
      <input
        ref={input}
        type="file"
        className="unseen"
        tabIndex={-1}
        aria-label="Picture or PDF of the plan"
        accept={['image/png', 'image/jpeg', 'image/webp', 'application/pdf'] satisfies FileType[] as never}
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          if (file) void lay(file, page);
          event.target.value = '';
        }}
      />
      {underlay && (
        <>
          <label className="draw-option">
            Faded
            <input
              type="range"
              min="0"
              max="90"
              step="10"
              value={Math.round(100 * (siOf(underlay.dim, 'ratio') ?? 0.4))}
              onChange={(event) => change('Fade underlay', underlay.id, { dim: `${event.target.value} %` })}
            />
          </label>
          <button
            type="button"
            className="plain-button"
            onClick={() => change('Turn underlay', underlay.id, { rotation: `${(turn + 90) % 360}°` })}
          >
            Turn 90°
          </button>
          <button
            type="button"
            className="plain-button"
            onClick={() =>
              useDraw.setState({
                note: perform({
                  label: 'Take underlay away',
                  change: (now) => ({
                    ...now,
                    underlays: (now.underlays ?? []).filter((each) => each.id !== underlay.id),
                  }),
                }),
              })
            }
          >
            Take away
          </button>
        </>
      )}
    </>
  );
};
