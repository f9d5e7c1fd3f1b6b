import { useId, useRef, useState } from 'react';
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
  const input = useRef<HTMLInputElement>(null);
  const id = useId();
  const [caption, setCaption] = useState('');
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string>();
  const add = async (file: File) => {
    setBusy(true);
    const result = await addPhoto(file, of, caption.trim());
    setBusy(false);
    setProblem(result.ok ? undefined : result.errors[0]?.message);
    if (result.ok) setCaption('');
  };
  return (
    <fieldset className="field-group">
      <legend>Photos and notes</legend>
      {photos.map((photo) => (
        <Photo key={photo.id} photo={photo} />
      ))}
      <label htmlFor={id}>What the photo shows</label>
      <div className="field-row">
        <input id={id} type="text" value={caption} onChange={(event) => setCaption(event.target.value)} />
        <button type="button" className="plain-button" disabled={busy} onClick={() => input.current?.click()}>
          {busy ? 'Adding …' : 'Add photo …'}
        </button>
      </div>
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
        <DraftInput
          aria-label={`Caption of ${photo.id}`}
          placeholder="What is to be seen"
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
