// The walk: one jack after another, the verdict in words, the next jack at the thumb.
import { useAsked } from '../context.ts';
import { Plate, Screen } from '../parts/frame.tsx';
import { go } from '../router.ts';

export default function Walk(props: { audit: string; place: string | null }) {
  const asked = useAsked('walk', { audit: props.audit, place: props.place });
  const view = asked.type === 'ready' ? asked.value : null;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
          cells={[{ small: view?.name ?? 'Audit', big: view?.current.jack ?? '', heading: true }]}
        />
      }
    >
      <p class="home-line">Opening the record.</p>
    </Screen>
  );
}
