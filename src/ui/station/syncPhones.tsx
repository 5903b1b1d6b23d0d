// Phones of the station, a code for one more, and leaving. Removing a phone stops its exchange; what it sent stays.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useServices } from '../context.ts';
import { Dialog } from '../parts/dialog.tsx';
import { PlainButton } from '../parts/form.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { Qr } from '../renaming/labelsQr.tsx';
import type { PairedPhone as Phone } from '../services.ts';
import { clock, dayAndClock } from '../times.ts';
import { codeToText } from './syncCode.ts';

export function PhonesPart() {
  return (
    <>
      <AnotherPhone />
      <Phones />
    </>
  );
}

function AnotherPhone() {
  const { sync } = useServices();
  const code = useSignal<{ type: 'none' } | { type: 'asking' } | Awaited<ReturnType<typeof sync.newCode>>>({
    type: 'none',
  });
  const make = async () => {
    code.value = { type: 'asking' };
    code.value = await sync.newCode();
  };
  const made = code.value;
  return (
    <>
      <SectionHead strong title="Another phone" />
      <div class="desk-part">
        {made.type === 'code' ? (
          <>
            <div class="code-shown">
              <Qr text={codeToText(made.code)} title={`Pairing code ${made.code}`} />
              <p class="code-text ident">{made.code}</p>
            </div>
            <p>
              On the other phone, inside the installed app: Send and receive, then read or type this code. It works
              until {clock(made.validUntil)}, for one phone.
            </p>
          </>
        ) : (
          <p>Each phone needs its own code. Whoever has it can read and add to the whole station.</p>
        )}
        {made.type === 'failed' && (
          <ErrorBox what="No code could be made." where={made.why} todo="Try again where the server can be reached." />
        )}
        <PlainButton disabled={made.type === 'asking'} onPress={() => void make()}>
          {made.type === 'code' ? 'Make another code' : 'Make a code'}
        </PlainButton>
      </div>
    </>
  );
}

/** Stands for this phone where the server cannot tell of it. */
const ME: Phone = { id: '', name: 'This phone', pairedAt: 0, seenAt: null, me: true, mayRemove: true };

function Phones() {
  const { sync } = useServices();
  const phones = useSignal<Phone[] | null | undefined>(undefined);
  const asking = useSignal<Phone | null>(null);
  const trouble = useSignal<{ what: string; why: string } | null>(null);
  const load = async () => {
    phones.value = await sync.phones();
  };
  useEffect(() => void load(), []);
  const strike = async (phone: Phone) => {
    asking.value = null;
    trouble.value = null;
    if (phone.me) return sync.unpair();
    const answer = await sync.revoke(phone.id);
    if (answer.type === 'failed') trouble.value = { what: `${phone.name} was not removed.`, why: answer.why };
    await load();
  };
  const ask = (phone: Phone | null) => () => {
    asking.value = phone;
  };
  const list = phones.value;
  return (
    <>
      <SectionHead strong title="Phones of this station" right={list ? String(list.length) : undefined} />
      {trouble.value && <ErrorBox what={trouble.value.what} where={trouble.value.why} todo="Nothing was changed." />}
      {list === undefined && <p class="desk-note">Asking the server.</p>}
      {list === null && (
        <div class="desk-part">
          <p>The server does not answer, so the list cannot be shown.</p>
          <PlainButton onPress={() => void load()}>Ask again</PlainButton>
        </div>
      )}
      {list?.map((phone) => (
        <Row
          key={phone.id}
          title={phone.name}
          right={phone.me ? 'this phone' : phone.mayRemove ? 'Remove' : undefined}
          second={`Paired ${dayAndClock(phone.pairedAt)}; ${phone.seenAt === null ? 'never heard from' : `last heard from ${dayAndClock(phone.seenAt)}`}.`}
          onPress={phone.me || !phone.mayRemove ? undefined : ask(phone)}
        />
      ))}
      {list?.some((phone) => !phone.mayRemove) && (
        <p class="desk-note">
          The phone that began the station can remove the others, and so can whoever runs the server:
          npm&nbsp;run&nbsp;phones.
        </p>
      )}
      <div class="desk-part">
        <PlainButton onPress={ask(list?.find(({ me }) => me) ?? ME)}>Unpair this phone</PlainButton>
      </div>
      {asking.value && <Ask phone={asking.value} onNo={ask(null)} onYes={(phone) => void strike(phone)} />}
    </>
  );
}

function Ask(props: { phone: Phone; onNo: () => void; onYes: (phone: Phone) => void }) {
  const { phone } = props;
  return (
    <Dialog
      title={phone.me ? 'Unpair this phone?' : `Remove ${phone.name}?`}
      rows={[
        [
          { big: 'Cancel', onPress: props.onNo },
          { big: phone.me ? 'Unpair' : 'Remove', primary: true, onPress: () => props.onYes(phone) },
        ],
      ]}
      onClose={props.onNo}
    >
      <p>
        {phone.me
          ? 'This phone can no longer reach the server. Everything recorded stays on it, sent or not; pair again to send the rest.'
          : 'It can no longer send or receive. What it sent stays; what it did not send stays on that phone only.'}
      </p>
    </Dialog>
  );
}
