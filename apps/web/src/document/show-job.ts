import { emptyUndoStack, type History, type Job, type UndoStack } from '@airledger/job';
import { useWorkbench } from '../state/store.ts';
import type { OpenedJob } from '../worker/open-job.ts';

export type ShownJob = {
  /** Identity of the job in the store of jobs; one of its own when it is not kept. */
  readonly id: string;
  readonly fileName: string;
  readonly typed: Job;
  readonly opened: OpenedJob;
  readonly steps?: UndoStack;
  readonly history?: History;
};

/** Puts a job on the page in place of the one in hand. */
export const showJob = ({
  id,
  fileName,
  typed,
  opened,
  steps = emptyUndoStack,
  history = [],
}: ShownJob): void => {
  const first = opened.states[0]!.id;
  useWorkbench.setState({
    jobId: id,
    typed,
    job: opened,
    steps,
    history,
    fileName,
    gesture: undefined,
    refused: undefined,
    viewed: first,
    compared: false,
    pair: [first, opened.states[1]?.id ?? first],
    trials: {},
    past: [],
    future: [],
    readings: {},
    ranges: undefined,
    explained: undefined,
    room: undefined,
    part: undefined,
    storey: Math.min(...opened.surveys[first]!.rooms.map((room) => room.storey), Number.POSITIVE_INFINITY),
  });
};
