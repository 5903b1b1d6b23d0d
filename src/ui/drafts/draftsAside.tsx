// What was put aside because this version of the app cannot use it: seen as text, copied, deleted. It is never read back
// into a screen here.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AsideDraft } from '../../store/drafts.ts';
import { Dialog } from '../parts/dialog.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import type { Services } from '../services.ts';
import { dayAndClock } from '../times.ts';
import { keyToWords } from './draftNames.ts';
import { failureToWords } from './draftWords.ts';
import '../look/told.css';

type Listed = { type: 'loading' } | { type: 'ready'; drafts: AsideDraft[] } | { type: 'failed'; why: string };

function useAside(services: Services): { listed: Listed; load: () => Promise<void> } {
  const listed = useSignal<Listed>({ type: 'loading' });
  const load = async () => {
    const read = await services.draftsAside();
    listed.value =
      read.type === 'done' ? { type: 'ready', drafts: read.value } : { type: 'failed', why: failureToWords(read.type) };
  };
  useEffect(() => void load(), []);
  return { listed: listed.value, load };
}

/** On the screen of this phone's settings; nothing where nothing was put aside. */
export function AsideSection({ services }: { services: Services }) {
  const { listed, load } = useAside(services);
  const open = useSignal<string | null>(null);
  if (listed.type === 'loading' || (listed.type === 'ready' && listed.drafts.length === 0)) return null;
  return (
    <>
      <SectionHead strong title="Put aside on this phone" />
      <AsideList listed={listed} onOpen={(key) => (open.value = key)} />
      <AsideText
        services={services}
        draft={draftOf(listed, open.value)}
        onDone={() => (open.value = null)}
        load={load}
      />
    </>
  );
}

/** The same over any screen, from the bar that told of it. */
export function AsideDialog({ services, close }: { services: Services; close: () => void }) {
  const { listed, load } = useAside(services);
  const open = useSignal<string | null>(null);
  const draft = draftOf(listed, open.value);
  if (draft) return <AsideText services={services} draft={draft} onDone={() => (open.value = null)} load={load} />;
  return (
    <Dialog title="Put aside on this phone" onClose={close} rows={[[{ big: 'Close', onPress: close }]]}>
      {listed.type === 'ready' && listed.drafts.length === 0 && <p>Nothing is put aside.</p>}
      <AsideList listed={listed} onOpen={(key) => (open.value = key)} />
    </Dialog>
  );
}

function draftOf(listed: Listed, key: string | null): AsideDraft | null {
  return (listed.type === 'ready' && listed.drafts.find((one) => one.key === key)) || null;
}

function AsideList({ listed, onOpen }: { listed: Listed; onOpen: (key: string) => void }) {
  if (listed.type === 'failed')
    return (
      <ErrorBox
        what="What was put aside cannot be read."
        where={listed.why}
        todo="Reload and open it again. Nothing was deleted."
      />
    );
  if (listed.type === 'loading') return null;
  return (
    <>
      {listed.drafts.map(({ key, of, at }) => (
        <Row key={key} title={keyToWords(of)} second={`Saved ${dayAndClock(at)}`} onPress={() => onOpen(key)} />
      ))}
    </>
  );
}

function AsideText(props: {
  services: Services;
  draft: AsideDraft | null;
  onDone: () => void;
  load: () => Promise<void>;
}) {
  const { services, draft, onDone, load } = props;
  const told = useSignal<string | null>(null);
  if (!draft) return null;
  const text = valueToText(draft.value);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      told.value = 'Copied.';
    } catch {
      told.value = 'The browser does not let the app copy. Hold the text and copy it by hand.';
    }
  };
  const drop = async () => {
    const dropped = await services.dropAside(draft.key);
    if (dropped.type !== 'done') {
      told.value = `Not deleted. ${failureToWords(dropped.type)} Try again.`;
      return;
    }
    told.value = null;
    onDone();
    await load();
  };
  const back = () => {
    told.value = null;
    onDone();
  };
  return (
    <Dialog
      title={keyToWords(draft.of)}
      onClose={back}
      rows={[
        [
          { big: 'Cancel', onPress: back },
          { small: 'From this phone', big: 'Delete it', onPress: () => void drop() },
          { big: 'Copy it', primary: true, onPress: () => void copy() },
        ],
      ]}
    >
      <p>
        Saved {dayAndClock(draft.at)} by another version of the app, shown as it is. Copy what you want to enter again.
      </p>
      {told.value && <p role="status">{told.value}</p>}
      <p class="ident aside-text">{text}</p>
    </Dialog>
  );
}

/** A text as it was typed, everything else with its field names. */
function valueToText(value: unknown): string {
  if (typeof value === 'string') return value;
  try {
    return (
      JSON.stringify(value, (_, one: unknown) => (typeof one === 'bigint' ? String(one) : one), 2) ?? String(value)
    );
  } catch {
    return String(value);
  }
}
