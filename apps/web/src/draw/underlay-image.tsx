import { type Job, pointOf, siOf } from '@airledger/job';
import { sheetScale, toSheet } from './sheet.ts';
import { underlayOn } from './tools/measure.ts';
import { usePicture } from './use-picture.ts';

/** The picture under a storey, where it was laid. */
export const UnderlayImage = ({ job, storey }: { job: Job; storey: number }) => {
  const underlay = underlayOn(job, storey);
  const picture = usePicture(underlay?.sha256);
  if (!underlay || !picture) return null;
  const [x, y] = toSheet(pointOf(underlay.corner));
  const width = (siOf(underlay.width, 'length') ?? 10) * sheetScale;
  const height = (width * picture.height) / picture.width;
  const turn = siOf(underlay.rotation, 'angle') ?? 0;
  return (
    <image
      href={picture.url}
      x={x}
      y={y - height}
      width={width}
      height={height}
      transform={`rotate(${-turn} ${x} ${y})`}
      opacity={1 - (siOf(underlay.dim, 'ratio') ?? 0.5)}
      preserveAspectRatio="none"
    />
  );
};
