import { AirArea } from '../air/air-area.tsx';
import { ChecksArea } from '../checks/checks-area.tsx';
import { WhereFrom } from '../figure/where-from.tsx';
import { SidePanel } from '../forms/side-panel.tsx';
import { LoadsArea } from '../loads/loads-area.tsx';
import { type Area, useWorkbench } from '../state/store.ts';
import { SurveyArea } from '../survey/survey-area.tsx';
import { DropTarget } from './drop-target.tsx';
import { EmptyPage } from './empty-page.tsx';
import { FileProblems } from './file-problems.tsx';
import { Header } from './header.tsx';
import { loadedLater } from './loaded-later.tsx';
import { Panels } from './panels.tsx';
import { Rail } from './rail.tsx';
import { StatusLine } from './status-line.tsx';
import { useShortcuts } from './use-shortcuts.ts';
import './app.css';

/** Loaded when somebody draws. */
const DrawArea = loadedLater(async () => (await import('../draw/draw-area.tsx')).DrawArea);

/** Loaded when somebody tests. */
const TestsArea = loadedLater(async () => (await import('../tests/tests-area.tsx')).TestsArea);

/** Loaded when somebody plans repairs. */
const RepairsArea = loadedLater(async () => (await import('../repairs/repairs-area.tsx')).RepairsArea);

/** Loaded when somebody balances. */
const BalanceArea = loadedLater(async () => (await import('../balance/balance-area.tsx')).BalanceArea);

/** Loaded when somebody runs a year. */
const SeasonArea = loadedLater(async () => (await import('../season/season-area.tsx')).SeasonArea);

const areas: Record<Area, React.ComponentType> = {
  draw: DrawArea,
  survey: SurveyArea,
  loads: LoadsArea,
  air: AirArea,
  tests: TestsArea,
  repairs: RepairsArea,
  balance: BalanceArea,
  season: SeasonArea,
  checks: ChecksArea,
};

/** The whole page: header, the order of the job, the work area, the room in hand, how the account stands. */
export const App = () => {
  const area = useWorkbench((state) => state.area);
  const compared = useWorkbench((state) => state.compared);
  const refused = useWorkbench((state) => state.refused);
  // That there are figures, not which: the page is not drawn anew with each of them.
  const solved = useWorkbench((state) => state.readings[state.viewed] !== undefined);
  // The area may be remembered from another version of the page.
  const WorkArea = areas[area] ?? AirArea;
  useShortcuts();
  return (
    <DropTarget>
      <div className="app">
        <Header />
        {solved ? (
          <div className={compared && area === 'air' ? 'desk wide' : 'desk'}>
            <Rail />
            <main className="work" id="work" tabIndex={-1} aria-label="Work area">
              <WorkArea />
            </main>
            {!(compared && area === 'air') && <SidePanel />}
          </div>
        ) : (
          <EmptyPage />
        )}
        <StatusLine />
        {refused && <FileProblems refused={refused} />}
        <Panels />
        <WhereFrom />
      </div>
    </DropTarget>
  );
};
