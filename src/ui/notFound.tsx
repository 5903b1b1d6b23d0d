// An address that the app does not know; the way home, and nothing guessed.
import { Plate, Screen, TitleBlock } from './parts/frame.tsx';
import { Empty } from './parts/rows.tsx';
import { toHome } from './plan/planParts.tsx';

export default function NotFound({ path }: { path: string }) {
  return (
    <Screen
      plate={<Plate cells={[{ small: 'Address', big: 'Not known here', heading: true }]} />}
      foot={<TitleBlock rows={[[{ small: 'Nothing is lost', big: 'First screen', primary: true, onPress: toHome }]]} />}
    >
      <Empty what="This address leads nowhere." why={<span class="ident">{path.slice(0, 200)}</span>} />
    </Screen>
  );
}
