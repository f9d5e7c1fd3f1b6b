import { type Account, type LoadLine, loadCautions, type RoomStanding } from '@airledger/engine';
import { Fragment } from 'react';
import { placeName } from '../account/account-words.ts';
import { Figure } from '../figure/figure.tsx';
import type { Format } from '../figure/format.ts';
import type { Provenance } from '../figure/provenance.ts';
import { useFormat } from '../figure/use-format.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { chooseRoom } from '../state/actions.ts';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import './loads.css';

/** The design load, room by room and line by line; each line shows its sum and its source. */
export const LoadsArea = () => {
  const account = useAccount();
  const format = useFormat();
  if (!account) return null;
  const { site } = account.survey;
  const outdoor = account.mode === 'heating' ? site.heatingDryBulb_C : site.coolingDryBulb_C;
  const percentile = account.mode === 'heating' ? site.heatingPercentile : site.coolingPercentile;
  return (
    <Scrolls className="sheet page-area" label="Loads">
      <header>
        <h2>Loads, {account.mode} day</h2>
        <span className="quiet">
          {format.full(outdoor, 'temperature')} outdoors ({percentile}, {site.designSource}),{' '}
          {format.full(account.loads.indoor.temperature_C, 'temperature')} indoors
        </span>
      </header>
      <LoadCautions account={account} />
      <table className="loads">
        <caption className="unseen">Loads by room in {format.unit('power')}</caption>
        <thead>
          <tr>
            <th scope="col">Room and line</th>
            <th scope="col">To or from</th>
            <th scope="col" className="number">
              Sensible
            </th>
            <th scope="col" className="number">
              Latent
            </th>
          </tr>
        </thead>
        {account.rooms.map((room) => (
          <RoomLoads key={room.room} account={account} room={room} />
        ))}
        <tfoot>
          <tr>
            <th scope="row">Whole house, without ducts</th>
            <td />
            <td className="number">{format.full(account.loads.sensible_W, 'power')}</td>
            <td className="number">{format.full(account.loads.latent_W, 'power')}</td>
          </tr>
          <tr>
            <th scope="row">Its ducts add</th>
            <td />
            <td className="number">{format.full(account.house.ductLoss_W, 'power')}</td>
            <td />
          </tr>
        </tfoot>
      </table>
    </Scrolls>
  );
};

/** Where the load method does not cover the house well; a room leads to its lines. */
const LoadCautions = ({ account }: { account: Account }) => {
  const cautions = loadCautions(account.survey, account.loads);
  if (cautions.length === 0) return null;
  return (
    <section className="load-cautions" aria-labelledby="load-cautions">
      <h3 id="load-cautions">Look twice at these loads</h3>
      <ul>
        {cautions.map(({ room, text }) => (
          <li key={`${room} ${text}`}>
            {room !== undefined && (
              <>
                <button type="button" className="link-button" onClick={() => chooseRoom(room)}>
                  {placeName(account, room)}
                </button>{' '}
              </>
            )}
            {text}
          </li>
        ))}
      </ul>
    </section>
  );
};

const RoomLoads = ({ account, room }: { account: Account; room: RoomStanding }) => {
  const format = useFormat();
  const open = useWorkbench((state) => state.room === room.room);
  const lines = account.loads.lines.filter((line) => line.room === room.room);
  return (
    <tbody>
      <tr className="room-row">
        <th scope="rowgroup">
          <button
            type="button"
            className="row-toggle"
            aria-expanded={open}
            onClick={() => chooseRoom(room.room)}
          >
            {room.name}
          </button>
        </th>
        <td className="quiet">{lines.length} lines</td>
        <td className="number">{format.full(room.load_W, 'power')}</td>
        <td className="number">{format.full(room.latent_W, 'power')}</td>
      </tr>
      {open &&
        lines
          .toSorted((a, b) => Math.abs(b.sensible_W) - Math.abs(a.sensible_W))
          .map((line) => (
            <Fragment key={`${line.of} ${line.what} ${line.cause}`}>
              <tr>
                <th scope="row" className="load-line">
                  {line.what}
                </th>
                <td className="quiet">{placeName(account, line.beyond)}</td>
                <td className="number">
                  <Figure from={() => lineProvenance(line, line.sensible_W, format)}>
                    {format.bare(line.sensible_W, 'power')}
                  </Figure>
                </td>
                <td className="number">
                  {line.latent_W === 0 ? (
                    ''
                  ) : (
                    <Figure from={() => lineProvenance(line, line.latent_W, format)}>
                      {format.bare(line.latent_W, 'power')}
                    </Figure>
                  )}
                </td>
              </tr>
            </Fragment>
          ))}
    </tbody>
  );
};

const lineProvenance = (line: LoadLine, value_W: number, format: Format): Provenance => ({
  title: `${line.what} (${line.cause})`,
  value: format.full(value_W, 'power'),
  formula: line.formula,
  inputs: [],
  source: line.source,
});
