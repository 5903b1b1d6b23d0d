// A photo small; over the whole screen when pressed. It shows and changes nothing.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import { useAsked } from '../context.ts';
import { PhotoThumb } from '../photos/photoThumb.tsx';
import { PhotoViewer } from '../photos/photoViewer.tsx';
import { dayAndClock } from '../times.ts';

/** One of another phone may still be on its way. */
export function Photo({ audit, document }: { audit: AuditId; document: string }) {
  const asked = useAsked('photo', { audit, document });
  const open = useSignal(false);
  const photo = asked.type === 'ready' ? asked.value?.photo : null;
  if (!photo) return null;
  return (
    <>
      <button
        type="button"
        aria-label={`Photo of ${photo.words}, ${dayAndClock(photo.at)}`}
        onClick={() => {
          open.value = true;
        }}
      >
        <PhotoThumb photo={photo} />
      </button>
      {open.value && (
        <PhotoViewer
          audit={audit}
          document={document}
          onClose={() => {
            open.value = false;
          }}
        />
      )}
    </>
  );
}
