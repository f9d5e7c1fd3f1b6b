import { useEffect, useId, useRef, useState } from 'react';
import {
  addPhoto,
  captionPhoto,
  photoAddress,
  removePhoto,
  type ShownPhoto,
  usePhotos,
} from '../keeping/photos.ts';
import { DraftInput } from './draft-input.tsx';

/** Photos pinned to a record, each with what is to be seen on it. */
export const Photos = ({ of }: { of: string }) => {
  const photos = usePhotos(of);
  const box = useRef<HTMLFieldSetElement>(null);
  const input = useRef<HTMLInputElement>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string>();
  const [added, setAdded] = useState(false);
  const add = async (file: File) => {
    setBusy(true);
    const result = await addPhoto(file, of);
    setBusy(false);
    setProblem(result.ok ? undefined : result.errors[0]?.message);
    if (result.ok) setAdded(true);
  };
  // Who has added a photo goes on to say what it shows.
  useEffect(() => {
    if (!added) return;
    [...(box.current?.querySelectorAll<HTMLInputElement>('figcaption input') ?? [])].at(-1)?.focus();
    setAdded(false);
  }, [added]);
  return (
    <fieldset className="field-group" ref={box}>
      <legend>Photos and notes</legend>
      {photos.map((photo) => (
        <Photo key={photo.id} photo={photo} />
      ))}
      <button
        type="button"
        className="plain-button photo-add"
        disabled={busy}
        onClick={() => input.current?.click()}
      >
        {busy ? 'Adding …' : 'Add photo …'}
      </button>
      <input
        ref={input}
        type="file"
        accept="image/*"
        hidden
        aria-label="Photo"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) void add(file);
        }}
      />
      {problem && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </fieldset>
  );
};

const Photo = ({ photo }: { photo: ShownPhoto }) => {
  const id = useId();
  const words = photo.caption || 'Photo';
  const open = async () => {
    const address = await photoAddress(photo.sha256, 'whole');
    if (address) window.open(address, '_blank', 'noopener');
  };
  return (
    <figure className="photo">
      <button
        type="button"
        className="photo-open"
        aria-label={`Open the photo: ${words}`}
        onClick={() => void open()}
      >
        {photo.thumb ? <img src={photo.thumb} alt="" /> : <span className="quiet">not at hand</span>}
      </button>
      <figcaption>
        <label htmlFor={id}>What the photo shows</label>
        <DraftInput
          id={id}
          value={photo.caption ?? ''}
          onCommit={(caption) => captionPhoto(photo.id, caption.trim()).ok}
        />
        <span className="quiet">
          {photo.taken}
          {photo.by && ` · ${photo.by}`}
        </span>
        <button
          type="button"
          className="link-button"
          aria-label={`Remove the photo: ${words}`}
          onClick={() => removePhoto(photo.id)}
        >
          Remove
        </button>
      </figcaption>
    </figure>
  );
};
