import type { Job } from '@airledger/job';
import { useId } from 'react';
import type { DrawOptions } from './draw-options.ts';
import { setOption, useDraw } from './draw-store.ts';
import { contextNow, perform } from './hear.ts';
import type { ToolId } from './tool-list.ts';
import { zoneDeed } from './tools/zone.ts';
import { UnderlayOptions } from './underlay-options.tsx';

type Choice = readonly [value: string, words: string];

const uses: readonly Choice[] = [
  'bedroom',
  'living',
  'kitchen',
  'bath',
  'hall',
  'laundry',
  'closet',
  'other',
].map((use) => [use, use]);
const zoneKinds: readonly Choice[] = [
  'attic',
  'crawlspace',
  'basement',
  'garage',
  'between floors',
  'chase',
].map((kind) => [kind, kind]);
const doors: readonly Choice[] = [
  ['shut', 'inner door, shut'],
  ['open', 'inner door, open'],
  ['opening', 'opening without a door'],
  ['outside', 'outside door'],
];
const windows: readonly Choice[] = [
  ['', 'usual for the house'],
  ...['single clear', 'double clear', 'double low-e', 'triple low-e', 'double clear, aluminum'].map(
    (name): Choice => [name, name],
  ),
];
const transferKinds: readonly Choice[] = [
  ['transfer grille', 'grille in the wall'],
  ['jump duct', 'jump duct over the ceiling'],
];
const sides: readonly Choice[] = [
  ['supply', 'supply'],
  ['return', 'return'],
];
const trunkRoles: readonly Choice[] = [
  ['trunk', 'trunk'],
  ['plenum', 'plenum'],
];
const materials: readonly Choice[] = [
  'flex',
  'galvanized',
  'spiral',
  'aluminum',
  'duct board',
  'metal flex',
  'PVC',
].map((name) => [name, name]);

/** What the next thing to be drawn is like, for the tool in hand. */
export const ToolOptions = ({ job }: { job: Job }) => {
  const toolId = useDraw((state) => state.toolId);
  const options = useDraw((state) => state.options);
  return <>{of(toolId, options, job)}</>;
};

const of = (toolId: ToolId, options: DrawOptions, job: Job) => {
  const spaces: readonly Choice[] = [
    ['', 'found by place'],
    ...[...(job.zones ?? []), ...job.rooms].map(({ id, name }): Choice => [id, name ?? id]),
  ];
  const through = <Pick name="ductZone" label="Runs through" choices={spaces} />;
  const side = <Pick name="side" label="Side" choices={sides} />;
  switch (toolId) {
    case 'rectangle':
    case 'polygon':
      return <Pick name="use" label="Use" choices={uses} />;
    case 'zone':
      return (
        <>
          <Pick name="zoneKind" label="Kind" choices={zoneKinds} />
          <button type="button" className="plain-button" onClick={drawWhole}>
            Over the whole storey
          </button>
        </>
      );
    case 'door':
      return (
        <>
          <Pick name="door" label="Kind" choices={doors} />
          {(options.door === 'shut' || options.door === 'open') && <Write name="undercut" label="Undercut" />}
        </>
      );
    case 'window':
      return (
        <>
          <Write name="windowSize" label="Size" />
          <Pick name="windowAssembly" label="Glass" choices={windows} />
        </>
      );
    case 'transfer':
      return (
        <>
          <Pick name="transferKind" label="Kind" choices={transferKinds} />
          {options.transferKind === 'jump duct' ? (
            <Write name="jumpDiameter" label="Diameter" />
          ) : (
            <Write name="transferFace" label="Face" />
          )}
        </>
      );
    case 'airHandler':
      return <Pick name="ductZone" label="Stands in" choices={spaces} />;
    case 'trunk':
      return (
        <>
          <Pick name="trunkRole" label="Kind" choices={trunkRoles} />
          {side}
          <Write name="trunkSection" label="Size" />
          {through}
        </>
      );
    case 'run':
    case 'register':
      return (
        <>
          {side}
          <Write name={options.side === 'return' ? 'returnSection' : 'runSection'} label="Size" />
          <Pick name="runMaterial" label="Duct" choices={materials} />
          <Write name="insulation" label="Insulation" />
          <Write name="rises" label="Rises" />
          <Write name={options.side === 'return' ? 'grilleFace' : 'registerFace'} label="Face" />
          {through}
        </>
      );
    case 'measure':
      return <UnderlayOptions job={job} />;
    default:
      return null;
  }
};

const drawWhole = (): void => {
  const context = contextNow();
  if (context) useDraw.setState({ note: perform(zoneDeed(undefined, context)) });
};

const Pick = ({
  name,
  label,
  choices,
}: {
  name: keyof DrawOptions;
  label: string;
  choices: readonly Choice[];
}) => {
  const value = useDraw((state) => state.options[name]);
  return (
    <label className="draw-option">
      {label}
      <select value={String(value)} onChange={(event) => setOption(name, event.target.value as never)}>
        {choices.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
};

const Write = ({ name, label }: { name: keyof DrawOptions; label: string }) => {
  const value = useDraw((state) => state.options[name]);
  const id = useId();
  return (
    <label className="draw-option" htmlFor={id}>
      {label}
      <input
        id={id}
        type="text"
        autoComplete="off"
        size={8}
        value={String(value)}
        onChange={(event) => setOption(name, event.target.value as never)}
      />
    </label>
  );
};
