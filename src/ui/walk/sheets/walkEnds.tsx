// Which ends are left? The nearest open end, and how long the rest may take, named as the estimate that it is; and
// the walk along the cables instead of along the jacks.
import { useAsked, useServices } from '../../context.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { PlainButton } from '../../parts/form.tsx';
import { Row, SectionHead } from '../../parts/rows.tsx';
import { count } from '../../words.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { labelToShow } from '../walkState.ts';
import { changeWay } from './walkWay.tsx';

export function EndsSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const ask = { audit: flow.audit, place: flow.memory.value.place, author: services.settings.value.author };
  const asked = useAsked('endsLeft', ask);
  if (asked.type !== 'ready' || !asked.value) return null;
  const { blind, ends, count: all, jacksLeft, pace } = asked.value;
  return (
    <Dialog title="Which ends are left?" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      <p>
        {count(jacksLeft, 'jack')} left in scope. {pace ?? 'Too few entries yet to tell how long that takes.'}
      </p>
      {blind && <p>This is a blind audit: the plan is hidden, and so is which ends are left.</p>}
      {!blind && <AlongButton flow={flow} close={close} />}
      {!blind && <SectionHead title="Nearest first" right={String(all)} />}
      {ends.map((end) => (
        <Row
          key={`${end.cable} ${end.place}`}
          title={<span class="ident">{labelToShow(end.label)}</span>}
          right={end.words}
          second={end.otherSeen ? 'The other end was seen where the plan has it.' : 'Neither end was seen yet.'}
          onPress={() => {
            close();
            void flow.moveTo(end.place);
          }}
        />
      ))}
      {all > ends.length && <p>And {all - ends.length} more, further away.</p>}
    </Dialog>
  );
}

/** From now on each statement leads to the nearest open end, or again to the next jack. */
function AlongButton({ flow, close }: Pick<SheetProps, 'flow' | 'close'>) {
  const services = useServices();
  const view = flow.view.value;
  if (!view || view === 'loading') return null;
  const along = view.along === null ? 'cables' : 'jacks';
  return (
    <PlainButton
      onPress={() => {
        close();
        void changeWay(services, flow, { along });
      }}
    >
      {along === 'cables' ? 'Go along the cables from here' : 'Go along the jacks again'}
    </PlainButton>
  );
}
