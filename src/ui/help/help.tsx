// Help by topic, readable without a network. It explains and warns; what a place demands is decided by local codes,
// permits and licensed trades.
import { useServices } from '../context.ts';
import { Plate, Screen } from '../parts/frame.tsx';
import { Row } from '../parts/rows.tsx';
import { toHome } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { TOPICS } from './helpTopics.tsx';
import '../look/desk.css';

export default function Help({ topic }: { topic: string | null }) {
  const services = useServices();
  const chosen = TOPICS.find(({ id }) => id === topic);
  return (
    <Screen
      plate={
        <Plate
          back={{
            label: chosen ? 'Back to all topics' : 'Back to the first screen',
            onPress: () => (chosen ? go({ screen: 'help', topic: null }) : toHome()),
          }}
          cells={[{ small: 'Help', big: chosen?.title ?? 'All topics', heading: true }]}
        />
      }
    >
      {chosen ? (
        <chosen.Page platform={services.platform()} installed={services.installed()} />
      ) : (
        TOPICS.map(({ id, title, line }) => (
          <Row key={id} title={title} second={line} onPress={() => go({ screen: 'help', topic: id })} />
        ))
      )}
    </Screen>
  );
}
