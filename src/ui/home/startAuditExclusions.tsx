// What an audit leaves out, each with its reason: a rack or room from the list, or a unit, jack or cable as typed.
// Never takes a text that names nothing in the plan.
import { useSignal } from '@preact/signals';
import type { ScopeOptions } from '../../wire/page.ts';
import { useServices } from '../context.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import type { Services } from '../services.ts';
import type { StartDraft } from './startDraft.ts';

type List = StartDraft['exclusions'];
const REASONS = ['Locked', 'Guest in the studio', 'On air, keep away', 'Work for a licensed trade', 'Too high'];

interface Props {
  options: ScopeOptions;
  list: List;
  onChange: (list: List) => void;
}

export function Exclusions(props: Props) {
  const { list, onChange } = props;
  const open = useSignal(false);
  const close = () => {
    open.value = false;
  };
  return (
    <>
      <SectionHead title="Left out" right={list.length === 0 ? 'nothing' : String(list.length)} />
      {list.map((one) => (
        <Row
          key={one.what}
          title={one.label}
          second={one.reason}
          right="Remove"
          onPress={() => onChange(list.filter(({ what }) => what !== one.what))}
        />
      ))}
      {open.value ? (
        <LeaveOut {...props} close={close} />
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

function LeaveOut({ options, list, onChange, close }: Props & { close: () => void }) {
  const services = useServices();
  const what = useSignal('');
  const reason = useSignal('');
  const wrong = useSignal<{ what?: string; reason?: string }>({});
  const add = async () => {
    const why = reason.value.trim();
    if (what.value.trim() === '') wrong.value = { what: 'Type or pick what you leave out.' };
    else if (why === '') wrong.value = { reason: 'Say why: the report prints it.' };
    else {
      const found = await resolve(services, options, what.value.trim());
      if (found) {
        onChange([...list.filter((one) => one.what !== found.what), { ...found, reason: why }]);
        close();
      } else wrong.value = { what: 'The plan has nothing of exactly that name. Type a jack with its unit: SW1 P24.' };
    }
  };
  const say = (text: string) => {
    reason.value = text;
  };
  return (
    <div class="form-part">
      <Field
        label="What is left out"
        value={what.value}
        hint="A room, a rack, a unit, or a jack with its unit."
        suggestions={[...options.racks.map(({ label }) => label), ...options.rooms.map(({ name }) => name)]}
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
        onChoose={say}
      />
      <Field label="Or in your own words" value={reason.value} error={wrong.value.reason} onInput={say} />
      <PlainButton primary onPress={() => void add()}>
        Leave it out
      </PlainButton>
      <PlainButton onPress={close}>Cancel</PlainButton>
    </div>
  );
}

/** What a text names in the plan; null where it names nothing, or more than one thing. */
async function resolve(
  services: Services,
  options: ScopeOptions,
  text: string,
): Promise<{ what: string; label: string } | null> {
  const rack = options.racks.find(({ label }) => label === text);
  if (rack) return { what: rack.id, label: rack.label };
  if (options.rooms.some(({ name }) => name === text)) return { what: text, label: text };
  const found = await services.ask('reading', { audit: null, place: null, text });
  return found.type === 'unknown' || found.type === 'ask' ? null : { what: found.id, label: found.label };
}
