// Which key of a small keyboard or remote says what in the walk; set by pressing it. A key belongs to one action only.
import { useSignal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import { mayBeSet, withKey } from '../feel/remoteKeys.ts';
import { DEFAULT_KEYS, REMOTE_ACTIONS, type RemoteAction } from '../feel/settings.ts';
import { useFeelSettings } from '../feel/useFeel.ts';
import { CheckRow, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';

const WORDS: Readonly<Record<RemoteAction, string>> = {
  planned: 'As planned',
  empty: 'Empty',
  unlabelled: 'No label',
  'not-visible': 'Can’t see it',
  photo: 'Photo',
  undo: 'Undo',
};

const KEY_WORDS: Readonly<Record<string, string>> = { ' ': 'Space', PageDown: 'Page down', PageUp: 'Page up' };

export function keyToWords(key: string): string {
  return KEY_WORDS[key] ?? (key.length === 1 ? key.toUpperCase() : key);
}

export function RemoteSettings() {
  const { settings, set } = useFeelSettings();
  const { remote, keys } = settings.value;
  const asking = useSignal<RemoteAction | null>(null);
  // Listens before its words are drawn.
  useLayoutEffect(() => {
    const action = asking.value;
    if (action === null) return;
    const pressed = (event: KeyboardEvent) => {
      if (event.key === 'Tab') return;
      event.preventDefault();
      event.stopPropagation();
      if (event.key !== 'Escape' && !mayBeSet(event.key)) return;
      if (event.key !== 'Escape') set({ keys: withKey(settings.peek().keys, action, event.key) });
      asking.value = null;
    };
    document.addEventListener('keydown', pressed, true);
    return () => document.removeEventListener('keydown', pressed, true);
  }, [asking.value]);
  return (
    <>
      <SectionHead strong title="Remote keys" />
      <CheckRow
        text="Use keys in the walk"
        second="Keys of a small keyboard or remote paired with the phone do what the buttons do. A hand scanner still works."
        checked={remote}
        onChange={(on) => set({ remote: on })}
      />
      {remote && (
        <>
          {REMOTE_ACTIONS.map((action) => (
            <Row
              key={action}
              title={WORDS[action]}
              second={
                asking.value === action
                  ? 'Press the key now. Escape changes nothing.'
                  : keys[action].map(keyToWords).join(', ') || 'no key'
              }
              onPress={() => {
                asking.value = asking.value === action ? null : action;
              }}
            />
          ))}
          <div class="desk-part">
            <p>In a blind audit “as planned” does nothing. A key held down counts once.</p>
            <PlainButton onPress={() => set({ keys: DEFAULT_KEYS })}>Reset the keys</PlainButton>
          </div>
        </>
      )}
    </>
  );
}
