// Photos of a whole rack as found, front and rear, before anything is touched. They hang on the rack's faces.
import { type AuditId, rackFaceToPlace } from '../../core/plan/identity.ts';
import type { DescribedRack } from '../../core/report/describedView.ts';
import { useServices } from '../context.ts';
import { InlineCamera } from '../photos/inlineCamera.tsx';
import { photoToWords } from '../walk/walkPhoto.ts';

export function RackPhotos(props: { audit: AuditId; rack: DescribedRack }) {
  const services = useServices();
  const { rack, audit } = props;
  const keep = (face: 'front' | 'rear') => async (picture: Blob) => {
    const result = await services.addPhoto(picture, { place: rackFaceToPlace(rack.id, face), whole: true, audit });
    return result.type === 'saved' ? `Photo of the ${face} saved.` : photoToWords(result.why);
  };
  return (
    <div class="describe-photos">
      <p class="quiet">Check the picture first: photos show passwords on notes and screens, addresses, faces.</p>
      {(['front', 'rear'] as const).map((face) => (
        <InlineCamera
          key={face}
          start={`Photo of ${rack.label} ${face}${rack.photos[face] > 0 ? ` (${rack.photos[face]} taken)` : ''}`}
          onPhoto={keep(face)}
        />
      ))}
    </div>
  );
}
