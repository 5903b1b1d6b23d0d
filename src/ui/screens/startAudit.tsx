// Starts an audit: name, occasion, scope, what is left out and why, what the person may do. Saved as typed.
import { useServices } from '../context.ts';
import { Plate, Screen } from '../parts/frame.tsx';
import { go } from '../router.ts';

export default function StartAudit() {
  const services = useServices();
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
          cells={[{ small: services.stationName.value || 'Station', big: 'Begin an audit', heading: true }]}
        />
      }
    >
      <p class="home-line">Opening the record.</p>
    </Screen>
  );
}
