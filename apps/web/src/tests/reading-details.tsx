import { instrumentOf, isByRise, type JobReading, kindRow, setupOf } from '@airledger/job';
import { useFormat } from '../figure/use-format.ts';
import { FieldsOf } from '../forms/fields-of.tsx';
import { fieldPath, forms } from '../forms/forms.ts';
import { Photos } from '../forms/photos.tsx';
import { removeReading } from './edit-readings.ts';

/** Fields that a reading of its kind has use for. */
const wanted = (reading: JobReading, field: string): boolean => {
  const { kind } = reading;
  const { value, of, at, to } = kindRow(kind);
  const isLeakage = /leakage/.test(kind);
  const byRise = isByRise(reading);
  if (field.startsWith('rise/')) return byRise;
  if (field.startsWith('plenum/')) return kind === 'fan flow' && !byRise;
  switch (field) {
    case 'kind':
      return false;
    case 'of':
      return of !== undefined;
    case 'at':
      return at !== undefined;
    case 'to':
      return to !== undefined;
    case 'points':
      return isLeakage;
    case 'stage':
    case 'setup/ductPressure':
      return kind === 'duct leakage';
    case 'setup/housePressure':
      return isLeakage || kind === 'pressure pan';
    case 'instrumentAir':
      return value === 'flow' && !byRise;
    case 'flow':
      return value === 'flow' && !byRise;
    case 'pressure':
    case 'temperature':
    case 'power':
      return field === value;
    default:
      return true;
  }
};

/** The rest of a reading's sheet: place, set-up, instrument, weather, who and when, photos. */
export const ReadingDetails = ({ reading }: { reading: JobReading }) => {
  const { pattern, groups } = forms.reading;
  return (
    <div className="reading-details record-form">
      {groups.map(({ title, fields }) => {
        const own = fields.filter((field) => wanted(reading, fieldPath(field)));
        if (own.length === 0) return null;
        return (
          <fieldset key={title} className="field-group">
            <legend>{title}</legend>
            {title === 'How house and ducts stood' && <UsualSetup reading={reading} />}
            {title === 'Instrument and weather' && <UsualAccuracy reading={reading} />}
            <FieldsOf fields={own} pattern={pattern} path={`readings/${reading.id}`} />
          </fieldset>
        );
      })}
      <Photos of={`readings/${reading.id}`} />
      <p>
        <button type="button" className="plain-button" onClick={() => removeReading(reading)}>
          Take this reading away
        </button>
      </p>
    </div>
  );
};

/** What counts where the sheet is silent. */
const UsualSetup = ({ reading }: { reading: JobReading }) => {
  const format = useFormat();
  const { fan, registers, filter, doors, ductPressure_Pa: duct, housePressure_Pa: house } = setupOf(reading);
  const words = [
    `fan ${fan === 'off' ? 'off' : `on, ${fan}`}`,
    `registers ${registers}`,
    `filter ${filter}`,
    `doors ${doors}`,
    ...(duct === undefined ? [] : [`ducts at ${format.roomPressure(duct)} to the house`]),
    ...(house === undefined ? [] : [`house at ${format.roomPressure(house)} to outdoors`]),
  ];
  return <p className="quiet">It counts as: {words.join(', ')}.</p>;
};

/** How sure a reading counts as where no accuracy is typed, and who says so. */
const UsualAccuracy = ({ reading }: { reading: JobReading }) => {
  const format = useFormat();
  const { name, share, least, source } = instrumentOf(reading);
  if (reading.accuracy !== undefined || isByRise(reading)) return null;
  const sure = share === 0 ? least : `${format.full(share, 'ratio')} and ${least}`;
  return (
    <p className="quiet">
      It counts as read with a {name}, give or take {sure} ({source}).
    </p>
  );
};
