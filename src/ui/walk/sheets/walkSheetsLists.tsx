// Sheets that are lists: where to go, why not opened, which hazard. A list never says that anything can be done
// without risk.
import { useSignal } from '@preact/signals';
import { HAZARDS } from '../../../core/trade/hazards.ts';
import { useAsked, useServices } from '../../context.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field } from '../../parts/form.tsx';
import { HazardRow } from '../../parts/hazard.tsx';
import { Row } from '../../parts/rows.tsx';
import { count } from '../../words.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { hazardAt, stopToWords, whyNotChecked } from './askWords.ts';
import { placeOf } from './walkSheetsText.tsx';

export function JumpSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const view = flow.view.value;
  const filter = useSignal('');
  const asked = useAsked('stops', { audit: flow.audit });
  if (!view || view === 'loading') return null;
  const me = services.settings.value.author;
  const stops = asked.type === 'ready' ? asked.value : [];
  const wanted = filter.value.trim().toLowerCase();
  const found = stops.filter(({ label, rack, room }) =>
    `${label} ${rack ?? ''} ${room ?? ''}`.toLowerCase().includes(wanted),
  );
  return (
    <Dialog title="Go to which unit?" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      {stops.length > 12 && (
        <Field
          label="Unit, rack or room"
          type="search"
          ident
          value={filter.value}
          onInput={(text) => {
            filter.value = text;
          }}
        />
      )}
      {found.slice(0, 60).map((stop) => (
        <Row
          key={`${stop.unit} ${stop.side} ${stop.first}`}
          title={<span class="ident">{stop.label}</span>}
          right={stop.left === 0 ? 'done' : `${count(stop.left, 'jack')} to go`}
          second={stopToWords(
            stop,
            stop.people.filter(({ author }) => author !== me),
            services.now(),
          )}
          current={stop.unit === view.unit.id && stop.side === view.side}
          onPress={() => {
            close();
            void flow.moveTo(stop.first);
          }}
        />
      ))}
      {found.length > 60 && <p>{count(found.length - 60, 'unit')} more: type part of the name.</p>}
    </Dialog>
  );
}

const REASONS = ['Needs touch', 'Locked', 'Live, do not approach', 'Needs a licensed trade', 'Too high'];

export function RefusedSheet({ flow, close }: SheetProps) {
  const at = placeOf(flow);
  const own = useDraftText(`refused:${flow.audit}`);
  if (!at) return null;
  const say = (reason: string) => {
    close();
    void flow.sayState('refused', { reason }).then(own.drop);
  };
  return (
    <Dialog
      title={whyNotChecked(at.words)}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { big: 'Record my reason', disabled: own.text.trim() === '', onPress: () => say(own.text.trim()) },
        ],
      ]}
    >
      {REASONS.map((reason) => (
        <Row key={reason} title={reason} onPress={() => say(reason)} />
      ))}
      <Field label="Another reason" value={own.text} onInput={own.set} />
    </Dialog>
  );
}

export function HazardSheet({ flow, close }: SheetProps) {
  const chosen = useSignal<string | null>(null);
  const note = useDraftText(`hazard:${flow.audit}`);
  const hazard = HAZARDS.find(({ id }) => id === chosen.value);
  const at = placeOf(flow);
  if (!at) return null;
  if (!hazard) {
    return (
      <Dialog title="Which hazard?" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
        {HAZARDS.map((one) => (
          <Row
            key={one.id}
            title={one.title}
            second={one.severity === 'people' ? 'Hazard to people' : 'Hazard to equipment'}
            onPress={() => {
              chosen.value = one.id;
            }}
          />
        ))}
      </Dialog>
    );
  }
  return (
    <Dialog
      title={hazardAt(at.words)}
      onClose={close}
      rows={[
        [
          {
            big: 'Another hazard',
            onPress: () => {
              chosen.value = null;
            },
          },
          {
            big: 'Record',
            primary: true,
            share: 2,
            onPress: () => {
              close();
              void flow.hazard(hazard.id, note.text.trim()).then(note.drop);
            },
          },
        ],
      ]}
    >
      <HazardRow title={hazard.title}>{hazard.caution}</HazardRow>
      <Field label="What you see" lines={2} value={note.text} onInput={note.set} />
    </Dialog>
  );
}
