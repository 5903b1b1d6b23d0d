// Asks which jack a typed far place is, before anything is recorded of it: one that fits is taken at once, any other is
// a question with the nearest known ones. The words as typed can always be kept.

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { FarPlace } from '../../core/plan/farPlace.ts';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import { useServices } from '../context.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Row } from '../parts/rows.tsx';
import { labelToShow } from '../walk/walkState.ts';

type Asked = Extract<FarPlace, { type: 'ask' }>;

type PlaceFound = { type: 'place'; place: PlaceId; words: string } | { type: 'unreadable' } | { type: 'left' };

interface Open {
  asked: Asked;
  answer: (found: PlaceFound) => void;
}

/** `question` belongs on the screen that calls `find`; `find` waits for its answer. */
export function useFarPlace(audit: AuditId): {
  find: (text: string) => Promise<PlaceFound>;
  question: VNode | null;
} {
  const services = useServices();
  const open = useSignal<Open | null>(null);
  const find = async (text: string): Promise<PlaceFound> => {
    const found = await services.ask('place', { audit, text });
    if (!found || found.type === 'unreadable') return { type: 'unreadable' };
    if (found.type === 'found') return { type: 'place', place: found.place, words: found.words };
    return new Promise((resolve) => {
      open.value = {
        asked: found,
        answer: (answered) => {
          open.value = null;
          resolve(answered);
        },
      };
    });
  };
  return { find, question: open.value && <Question {...open.value} /> };
}

function Question({ asked, answer }: Open) {
  const { kept, offers } = asked;
  const choose = (place: PlaceId, words: string) => answer({ type: 'place', place, words });
  return (
    <Dialog
      title={whyToWords(asked)}
      onClose={() => answer({ type: 'left' })}
      rows={[
        [
          { small: 'Don’t record', big: 'Cancel', onPress: () => answer({ type: 'left' }) },
          {
            small: 'Somewhere else',
            big: `Use “${labelToShow(kept.words)}”`,
            share: 2,
            onPress: () => choose(kept.place, kept.words),
          },
        ],
      ]}
    >
      {offers.map(({ place, words, where }) => (
        <Row
          key={place}
          title={<span class="ident">{labelToShow(words)}</span>}
          second={where ?? undefined}
          onPress={() => choose(place, words)}
        />
      ))}
      {offers.length === 0 && <p>No name here is like it.</p>}
    </Dialog>
  );
}

function whyToWords({ why, known, kept }: Asked): string {
  const said = labelToShow(kept.words);
  const name = labelToShow(known ?? '');
  switch (why) {
    case 'several':
      return `“${said}” fits more than one jack. Which is it?`;
    case 'no-such-jack':
      return `${name} has no jack “${said}”. Which is it?`;
    case 'no-such-unit':
      return `“${said}” is not a known unit. Which jack is it?`;
    case 'outside-rack':
      return `Rack ${name} is not that high: “${said}”.`;
  }
}
