// Which way the walk goes: kept on this phone for each audit, told to the record before the first jack is asked for.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../../core/plan/identity.ts';
import { USUAL_WAY, type WalkOrder } from '../../../core/report/walk/walkOrder.ts';
import { useServices } from '../../context.ts';
import { WAY } from '../../drafts/walkDrafts.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Choice } from '../../parts/form.tsx';
import type { Services } from '../../services.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';

const keyOf = (audit: AuditId) => `way:${audit}` as const;

/** Tells the record the way that was chosen before; the usual one needs no word. */
export async function tellWay(services: Services, audit: AuditId): Promise<void> {
  const kept = await services.draft(keyOf(audit), WAY);
  if (kept) await services.ask('way', { audit, way: { ...USUAL_WAY, ...kept } });
}

/** Changes the way of this phone's walk from the jack in hand on, and keeps it. */
export async function changeWay(services: Services, flow: WalkFlow, change: Partial<WalkOrder>): Promise<WalkOrder> {
  const kept = await services.draft(keyOf(flow.audit), WAY);
  const way = { ...USUAL_WAY, ...kept, ...change };
  void services.saveDraft(keyOf(flow.audit), way, WAY);
  await services.ask('way', { audit: flow.audit, way });
  await flow.refresh();
  return way;
}

export function WaySheet({ flow, close }: SheetProps) {
  const services = useServices();
  const way = useSignal<WalkOrder>(USUAL_WAY);
  useEffect(() => {
    void services.draft(keyOf(flow.audit), WAY).then((kept) => {
      if (kept) way.value = { ...USUAL_WAY, ...kept };
    });
  }, []);
  const set = async (change: Partial<WalkOrder>) => {
    way.value = { ...way.value, ...change };
    way.value = await changeWay(services, flow, way.value);
  };
  const { racks, sides, units, jacks, rows, along } = way.value;
  const view = flow.view.value;
  const blind = view !== null && view !== 'loading' && view.blind;
  return (
    <Dialog
      title="In which order do you walk?"
      onClose={close}
      rows={[[{ big: 'Go on', primary: true, onPress: close }]]}
    >
      {blind ? (
        <p>Along the jacks only: this audit is blind, and going along the cables would show where the plan has ends.</p>
      ) : (
        <Choice
          legend="After an entry"
          value={along}
          options={[
            { value: 'jacks', text: 'The next jack' },
            { value: 'cables', text: 'The nearest open end' },
          ]}
          onChoose={(value) => void set({ along: value })}
        />
      )}
      <Choice
        legend="Racks and rooms"
        value={racks}
        options={[
          { value: 'rising', text: 'R1, R2 …' },
          { value: 'falling', text: 'The last first' },
        ]}
        onChoose={(value) => void set({ racks: value })}
      />
      <Choice
        legend="Each rack"
        value={sides}
        options={[
          { value: 'front-first', text: 'Front first' },
          { value: 'rear-first', text: 'Rear first' },
        ]}
        onChoose={(value) => void set({ sides: value })}
      />
      <Choice
        legend="Its units"
        value={units}
        options={[
          { value: 'top-down', text: 'From the top' },
          { value: 'bottom-up', text: 'From the bottom' },
        ]}
        onChoose={(value) => void set({ units: value })}
      />
      <Choice
        legend="The jacks of a face"
        value={jacks}
        options={[
          { value: 'left-right', text: 'From the left' },
          { value: 'right-left', text: 'From the right' },
        ]}
        onChoose={(value) => void set({ jacks: value })}
      />
      <Choice
        legend="Odd over even"
        value={rows}
        options={[
          { value: 'columns', text: 'Column by column' },
          { value: 'rows', text: 'Row after row' },
        ]}
        onChoose={(value) => void set({ rows: value })}
      />
    </Dialog>
  );
}
