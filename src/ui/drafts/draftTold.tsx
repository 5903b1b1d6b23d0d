// A bar above the screen that says what became of something kept on this phone: put aside, not to be read, not kept. The
// screen goes on beneath it. Loaded only when there is something to say.
import { signal, useSignal } from '@preact/signals';
import { render } from 'preact';
import { PlainButton } from '../parts/form.tsx';
import type { Services } from '../services.ts';
import type { DraftTrouble } from './draftServices.ts';
import { AsideDialog } from './draftsAside.tsx';
import { troublesToWords } from './draftWords.ts';
import '../look/told.css';

const troubles = signal<DraftTrouble[]>([]);
let place: HTMLElement | null = null;

/** Each once, until the person has gone on. */
export function tellDraft(services: Services, trouble: DraftTrouble): void {
  if (troubles.peek().some(({ type, key }) => type === trouble.type && key === trouble.key)) return;
  troubles.value = [...troubles.peek(), trouble];
  document.body.classList.add('has-told');
  if (place) return;
  place = document.createElement('div');
  document.body.prepend(place);
  render(<Told services={services} />, place);
}

function Told({ services }: { services: Services }) {
  const seeing = useSignal(false);
  const [first] = troubles.value;
  if (!first) return null;
  const goOn = () => {
    troubles.value = troubles.peek().filter(({ type }) => type !== first.type);
    if (troubles.peek().length === 0) document.body.classList.remove('has-told');
  };
  const { what, todo } = troublesToWords(troubles.value.filter(({ type }) => type === first.type));
  return (
    <section class="told" aria-label="Kept on this phone">
      <p role="status">
        <strong>{what}</strong> {todo}
      </p>
      {first.type === 'aside' && (
        <PlainButton
          onPress={() => {
            seeing.value = true;
          }}
        >
          See it
        </PlainButton>
      )}
      {first.type === 'unread' && <PlainButton onPress={() => location.reload()}>Reload</PlainButton>}
      <PlainButton onPress={goOn}>Go on</PlainButton>
      {seeing.value && (
        <AsideDialog
          services={services}
          close={() => {
            seeing.value = false;
          }}
        />
      )}
    </section>
  );
}
