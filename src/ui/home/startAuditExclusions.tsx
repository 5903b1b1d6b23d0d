// What an audit leaves out, each with its reason: a rack or room from the list, or a unit, jack or cable as typed.
// Never takes a text that names nothing in the plan.
import { useSignal } from '@preact/signals';
import type { ScopeOptions } from '../../wire/page.ts';
import { useServices } from '../context.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import type { StartDraft } from './startDraft.ts';

type List = StartDraft['exclusions'];
const REASONS = ['Locked', 'Guest in the studio', 'On air, keep away', 'Work for a licensed trade', 'Too high'];

export function Exclusions(props: { options: ScopeOptions; list: List; onChange: (list: List) => void }) {
  const services = useServices();
  const open = useSignal(false);
  const what = useSignal('');
  const reason = useSignal('');
  const wrong = useSignal<{ what?: string; reason?: string }>({});
  const names = [...props.options.racks.map(({ label }) => label), ...props.options.rooms.map(({ name }) => name)];

  const resolve = async (): Promise<{ what: string; label: string } | null> => {
    const text = what.value.trim();
    const rack = props.options.racks.find(({ label }) => label === text);
    if (rack) return { what: rack.id, label: rack.label };
    if (props.options.rooms.some(({ name }) => name === text)) return { what: text, label: text };
    const found = await services.ask('reading', { audit: null, place: null, text });
    if (found.type === 'unknown' || found.type === 'ask') return null;
    return { what: found.id, label: found.label };
  };
  const add = async () => {
    if (what.value.trim() === '') {
      wrong.value = { what: 'Type or pick what you leave out.' };
      return;
    }
    if (reason.value.trim() === '') {
      wrong.value = { reason: 'Say why: the report prints it.' };
      return;
    }
    const found = await resolve();
    if (!found) {
      wrong.value = { what: 'The plan has nothing of exactly that name. Type a jack with its unit: SW1 P24.' };
      return;
    }
    wrong.value = {};
    props.onChange([...props.list.filter((one) => one.what !== found.what), { ...found, reason: reason.value.trim() }]);
    what.value = '';
    reason.value = '';
    open.value = false;
  };

  return (
    <>
      <SectionHead title="Left out" right={props.list.length === 0 ? 'nothing' : String(props.list.length)} />
      {props.list.map((one) => (
        <Row
          key={one.what}
          title={one.label}
          second={one.reason}
          right="Remove"
          onPress={() => props.onChange(props.list.filter(({ what: id }) => id !== one.what))}
        />
      ))}
      {open.value ? (
        <div class="form-part">
          <Field
            label="What is left out"
            value={what.value}
            hint="A room, a rack, a unit, or a jack with its unit."
            suggestions={names}
            error={wrong.value.what}
            ident
            onInput={(text) => {
              what.value = text;
            }}
          />
          <Choice
            legend="Why"
            stacked
            options={REASONS.map((value) => ({ value, text: value }))}
            value={reason.value}
            onChoose={(value) => {
              reason.value = value;
            }}
          />
          <Field
            label="Or in your own words"
            value={reason.value}
            error={wrong.value.reason}
            onInput={(text) => {
              reason.value = text;
            }}
          />
          <PlainButton primary onPress={() => void add()}>
            Leave it out
          </PlainButton>
          <PlainButton
            onPress={() => {
              open.value = false;
            }}
          >
            {' '}
            Cancel{' '}
          </PlainButton>
        </div>
      ) : (
        <Row
          title="Leave something out"
          second="A locked room, a live studio, a roof. The report says what and why."
          onPress={() => {
            open.value = true;
          }}
        />
      )}
    </>
  );
}
