import type { GuidanceItem } from '@airledger/job';
import { proxy } from 'comlink';
import { create } from 'zustand';
import { adoptTyped } from '../state/adopt-typed.ts';
import { useWorkbench } from '../state/store.ts';
import { patientEngine } from '../worker/engine-client.ts';

export type Guide = {
  /** What is worth measuring, as it was worked out last. */
  readonly items?: readonly GuidanceItem[];
  /** The house that this was asked of: its surveys, state and design day. */
  readonly of?: Question;
  /** Share done of what is being worked out. */
  readonly progress?: number;
  readonly failure?: string;
};

type Question = { readonly job: unknown; readonly state: string; readonly mode: string };

export const useGuide = create<Guide>(() => ({}));

const asked = (): Question => {
  const { job, viewed, mode } = useWorkbench.getState();
  return { job, state: viewed, mode };
};

const same = (a: Question | undefined, b: Question): boolean =>
  a !== undefined && a.job === b.job && a.state === b.state && a.mode === b.mode;

/** Whether what is shown is of the house as it stands. */
export const isCurrent = ({ of }: Guide): boolean => same(of, asked());

/** Works out what is worth measuring; a newer question takes the place of one that is going on. */
export const askGuidance = async (): Promise<void> => {
  const { viewed, mode } = useWorkbench.getState();
  const question = asked();
  useGuide.setState({ progress: 0, failure: undefined });
  await adoptTyped();
  try {
    const items = await patientEngine.guide(
      viewed,
      mode,
      proxy((done, of) =>
        useGuide.setState(({ progress }) => (progress === undefined ? {} : { progress: done / of })),
      ),
    );
    if (items && same(question, asked())) useGuide.setState({ items, of: question, progress: undefined });
  } catch (error) {
    useGuide.setState({ failure: String(error), progress: undefined });
  }
};

export const stopGuidance = (): void => {
  useGuide.setState({ progress: undefined });
  void patientEngine.stopGuidance();
};
