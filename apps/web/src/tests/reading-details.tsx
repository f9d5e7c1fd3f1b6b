import { type JobReading, kindRow, setupOf } from '@airledger/job';
import { useFormat } from '../figure/use-format.ts';
import { FieldsOf } from '../forms/fields-of.tsx';
import { fieldPath, forms } from '../forms/forms.ts';
import { Photos } from '../forms/photos.tsx';
import { removeReading } from './edit-readings.ts';

/** Fields that a reading of its kind has use for. */
const wanted = ({ kind }: JobReading, field: string): boolean => {
  const { value, of, at, to } = kindRow(kind);
  const isLeakage = /leakage/.test(kind);
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
      return value === 'flow';
    case 'flow':
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
        return (
          <fieldset key={title} className="field-group">
            <legend>{title}</legend>
            {title === 'How house and ducts stood' && <UsualSetup reading={reading} />}
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
