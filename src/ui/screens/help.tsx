// Help that works without a network: first steps, phones, marks, columns, cautions. One topic at a time.
import { useServices } from '../context.ts';
import { Plate, Screen } from '../parts/frame.tsx';
import { Row } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { TOPICS } from './helpTopics.tsx';
import '../look/desk.css';

export default function Help({ topic }: { topic: string | null }) {
  const services = useServices();
  const chosen = TOPICS.find((one) => one.id === topic) ?? null;
  return (
    <Screen
      plate={
        <Plate
          back={{
            label: chosen ? 'Back to the topics' : 'Back to the station',
            onPress: () => go(chosen ? { screen: 'help', topic: null } : { screen: 'home' }),
          }}
          cells={[{ small: 'Help', big: chosen?.title ?? 'Topics', heading: true }]}
        />
      }
    >
      {chosen ? (
        <div class="desk-part help-text">{chosen.body(services.platform())}</div>
      ) : (
        TOPICS.map((one) => (
          <Row key={one.id} title={one.title} second={one.line} onPress={() => go({ screen: 'help', topic: one.id })} />
        ))
      )}
    </Screen>
  );
}
