// The scope of a running audit grows by an act of its own: a rack, room or unit is added, by name and undone like the
// rest. It takes nothing away and says nothing about a jack.
import { useSignal } from '@preact/signals';
import type { ScopeOffer, ScopePart } from '../../../core/report/walk/scopeView.ts';
import type { WalkView } from '../../../core/report/walk/walkView.ts';
import { partToWords } from '../../../core/report/words/reportSentences.ts';
import { useAsked, useServices } from '../../context.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field, PlainButton } from '../../parts/form.tsx';
import { Row, SectionHead } from '../../parts/rows.tsx';
import type { Services } from '../../services.ts';
import { count, timeToWords } from '../../words.ts';
import type { WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { labelToShow } from '../walkState.ts';
import { LINES } from '../walkWords.ts';

const named = (part: ScopePart) => partToWords({ ...part, label: labelToShow(part.label) });

/** Adds it and tells so in the line; true when the record has it. */
export async function addToAudit(services: Services, flow: WalkFlow, part: ScopePart): Promise<boolean> {
  const only = (type: ScopePart['type']) => (part.type === type ? [part.id] : []);
  const payload = { racks: only('rack'), rooms: only('room'), units: only('unit') };
  const result = await services.record('scope-added', payload, { audit: flow.audit });
  if (result.event === '') {
    flow.line.value = LINES.notAdded(result.type === 'not-saved' ? result.why : '');
    return false;
  }
  flow.did(result.event, null, `adding ${named(part)}`);
  flow.line.value = LINES.added(named(part));
  return true;
}

/** The jack in hand is none of this audit's: said before anything else, with what may be added. */
export function OutsideLine({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const services = useServices();
  if (view.outside === null) return null;
  return (
    <section class="walk-ask" aria-label="Outside this audit">
      <p>{labelToShow(view.unit.label)} is outside this audit.</p>
      {view.outside.map((part) => (
        <PlainButton key={part.type} onPress={() => void addToAudit(services, flow, part)}>
          Add {named(part)}
        </PlainButton>
      ))}
    </section>
  );
}

export function ScopeSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const text = useSignal('');
  const asked = useAsked('scopeMore', { audit: flow.audit, text: text.value });
  const more = asked.type === 'ready' ? asked.value : null;
  const add = (part: ScopePart) => () => {
    close();
    void addToAudit(services, flow, part);
  };
  return (
    <Dialog title="Add to this audit" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      <p>A rack, a room or a unit. Its jacks are walked and counted from now on; the report says who added it.</p>
      <Field
        label="Rack, room or unit"
        type="search"
        ident
        value={text.value}
        onInput={(typed) => {
          text.value = typed;
        }}
      />
      {more?.offers.map((one) => (
        <Row
          key={`${one.type} ${one.id}`}
          title={named(one)}
          right={count(one.jacks, 'jack')}
          second={whereOf(one)}
          onPress={add(one)}
        />
      ))}
      {more !== null && more.offers.length === 0 && (
        <p>{text.value.trim() === '' ? 'The whole plan is in this audit.' : 'Nothing of that name is left to add.'}</p>
      )}
      {more !== null && more.more > 0 && <p>{more.more} more: type part of the name.</p>}
      {more !== null && more.added.length > 0 && (
        <>
          <SectionHead title="Added so far" right={String(more.added.length)} level={3} />
          {more.added.map(({ event, parts, author, at }) => (
            <Row
              key={event}
              title={parts.map(named).join(', ')}
              second={`${author}, ${timeToWords(at, services.now())}`}
            />
          ))}
        </>
      )}
    </Dialog>
  );
}

function whereOf({ type, where }: ScopeOffer): string | undefined {
  return where === null ? undefined : type === 'unit' ? `In ${labelToShow(where)}` : labelToShow(where);
}
