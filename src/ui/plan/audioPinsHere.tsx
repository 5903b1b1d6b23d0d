// What the contacts of an audio jack on RJ45 carry by the station's table. A rule, not a look: it says so.
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import { useAsked } from '../context.ts';
import '../look/desk.css';

export function AudioPinsHere({ audit, place }: { audit: AuditId; place: PlaceId }) {
  const asked = useAsked('audioPins', { audit, place });
  const here = asked.type === 'ready' ? asked.value : null;
  if (!here) return null;
  return (
    <p class="desk-note">
      {here.own ? 'Contacts by the station’s table' : 'Usual contacts, as no table is set'}: {here.words}. Nobody has
      looked inside this plug.
    </p>
  );
}
