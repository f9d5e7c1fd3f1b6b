import type { Account, Dimension } from '@airledger/engine';
import { useFormat } from '../figure/use-format.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { chooseRoom } from '../state/actions.ts';
import { lossSentence } from './account-words.ts';
import type { Stream } from './flow-layout.ts';
import type { Streams } from './streams.ts';

/** The same account as a table: rooms, losses, and the sum that both come to. */
export const AccountTable = ({
  account,
  streams,
  dimension,
}: {
  account: Account;
  streams: Streams;
  dimension: Dimension;
}) => {
  const format = useFormat();
  const rooms = streams.streams
    .filter((stream) => stream.kind === 'room')
    .toSorted((a, b) => b.missing - a.missing);
  const losses = streams.streams.filter((stream) => stream.kind === 'loss');
  const share = (stream: Stream) => `${((100 * stream.value) / streams.given).toFixed(1)} %`;
  return (
    <Scrolls className="account-table" label="Account as a table">
      <table>
        <caption className="unseen">Account in {format.unit(dimension)}</caption>
        <thead>
          <tr>
            <th scope="col">To</th>
            <th scope="col" className="number">
              {format.unit(dimension)}
            </th>
            <th scope="col" className="number">
              Share
            </th>
            <th scope="col" className="number">
              Missing
            </th>
          </tr>
        </thead>
        <tbody>
          {rooms.map((stream) => (
            <tr key={stream.id}>
              <th scope="row">
                <button type="button" className="link-button" onClick={() => chooseRoom(stream.id)}>
                  {stream.name}
                </button>
              </th>
              <td className="number">{format.bare(stream.value, dimension)}</td>
              <td className="number">{share(stream)}</td>
              <td className="number">{stream.missing > 0 ? format.bare(stream.missing, dimension) : ''}</td>
            </tr>
          ))}
          {losses.map((stream) => (
            <tr key={stream.id} className="lost">
              <th scope="row">Lost: {stream.name}</th>
              <td className="number">{format.bare(stream.value, dimension)}</td>
              <td className="number">{share(stream)}</td>
              <td />
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">From the air handler</th>
            <td className="number">{format.bare(streams.given, dimension)}</td>
            <td className="number">100 %</td>
            <td />
          </tr>
        </tfoot>
      </table>
      <p className="quiet">{lossSentence(account, streams, dimension, format)}</p>
    </Scrolls>
  );
};
