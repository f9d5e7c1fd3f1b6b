import type { BalanceObstacle, DamperSetting, Mode, ShareSpread } from '@airledger/engine';
import { obstacleWords } from '@airledger/report/obstacle-words';
import { nameOf } from '@airledger/report/place-names';
import { useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { Plan } from '../plan/plan.tsx';
import { Scrolls } from '../shell/scrolls.tsx';
import { Segmented } from '../shell/segmented.tsx';
import { useBaseSurvey, useStateName } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import type { Balanced } from './balance-worker.ts';
import { DamperTable } from './damper-table.tsx';
import { FieldSheets } from './field-sheets.tsx';
import { useBalance } from './use-balance.ts';
import { UseSettings } from './use-settings.tsx';
import { ZoneDampers } from './zone-dampers.tsx';
import './balance.css';

type Season = Mode | 'both';

/** How one season stands before and after. */
type Standing = {
  readonly mode: Mode;
  readonly before: ShareSpread;
  readonly after: ShareSpread;
  readonly obstacles: readonly BalanceObstacle[];
};

const seasons: readonly { readonly value: Season; readonly words: string }[] = [
  { value: 'heating', words: 'Heating' },
  { value: 'cooling', words: 'Cooling' },
  { value: 'both', words: 'Both' },
];

/** Balance: where each damper is to stand, what that brings, and the sheet to set them by. */
export const BalanceArea = () => {
  const survey = useBaseSurvey();
  const state = useStateName();
  const [season, setSeason] = useState<Season>('both');
  const [newDampers, setNewDampers] = useState(false);
  const { found, working, failure } = useBalance(survey, newDampers);
  return (
    <Scrolls className="sheet page-area balance-area" label="Balance">
      <header>
        <h2>Balance</h2>
        <span className="quiet" role="status">
          {working ? 'Setting dampers …' : state}
        </span>
        <Segmented label="Season to balance for" choices={seasons} value={season} onChange={setSeason} />
        <label className="new-dampers">
          <input
            type="checkbox"
            checked={newDampers}
            onChange={(event) => setNewDampers(event.target.checked)}
          />
          As if every run had a damper
        </label>
      </header>
      {failure && <p role="alert">This house can not be balanced as it is: {failure}.</p>}
      {found && <Answer found={found} season={season} />}
    </Scrolls>
  );
};

const Answer = ({ found, season }: { found: Balanced; season: Season }) => {
  const { survey, zoning } = found;
  const storey = useWorkbench((state) => state.storey);
  const format = useFormat();
  const { settings, standings, account } = chosen(found, season);
  const leading = standings[0]!.mode;
  const share = (value: number) => format.full(value, 'ratio');
  return (
    <>
      <ul className="balance-seasons">
        {standings.map(({ mode, before, after, obstacles }) => (
          <li key={mode}>
            <p>
              <strong>{mode === 'heating' ? 'Heating' : 'Cooling'}</strong>: rooms get {share(after.least)} to{' '}
              {share(after.most)} of their air as set; {share(before.least)} to {share(before.most)} as they
              stand.
            </p>
            {obstacles.length > 0 && (
              <ul className="obstacles">
                {obstacleWords(survey, obstacles, format.units).map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            )}
          </li>
        ))}
      </ul>
      <div className="balance-plan">
        <Plan
          account={account}
          storey={storey}
          label={`Plan with the dampers as set, ${leading}, storey ${storey}`}
        />
      </div>
      <DamperTable survey={survey} settings={settings} />
      <UseSettings settings={settings} name={nameOf(survey)} />
      <FieldSheets survey={survey} mode={leading} settings={settings} />
      <ZoneDampers survey={survey} cases={zoning.find(({ mode }) => mode === leading)!.cases} />
    </>
  );
};

/** Settings, standings and the account to draw, for one season or for the compromise. */
const chosen = ({ balance }: Balanced, season: Season) => {
  const own = balance.seasons.find(({ mode }) => mode === season);
  if (own) return { settings: own.settings, standings: [own] as readonly Standing[], account: own.account };
  const { compromise } = balance;
  const standings = compromise.seasons.map(({ mode, spread, obstacles }): Standing => {
    const { before } = balance.seasons.find((one) => one.mode === mode)!;
    return { mode, before, after: spread, obstacles };
  });
  const settings: readonly DamperSetting[] = compromise.settings;
  return { settings, standings, account: compromise.seasons[0]!.account };
};
