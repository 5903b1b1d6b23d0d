// Phones of the station: a code for a further one, and taking a lost one off. Taking off never deletes what it said.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { clock, day } from '../times.ts';
import { QrCode } from './qrCode.tsx';

export function PhonesPart() {
  const services = useServices();
  const made = useSignal<{ code: string; validUntil: number } | null>(null);
  const trouble = useSignal<string | null>(null);
  const phones = useSignal<Awaited<ReturnType<typeof services.sync.phones>>>(null);
  const load = () =>
    void services.sync.phones().then((list) => {
      phones.value = list;
    });
  useEffect(load, []);
  return (
    <>
      <SectionHead title="Another phone" />
      <div class="desk-part">
        {trouble.value && <ErrorBox what={trouble.value} todo="Try again where there is a network." />}
        {made.value ? (
          <>
            <p>
              Code <strong class="ident">{made.value.code}</strong>, good once until {clock(made.value.validUntil)}. On
              the other phone: Send and receive, then read it with the camera there or type it.
            </p>
            <QrCode text={`ASFOUND-PAIR:${made.value.code}`} sizeMm={40} />
          </>
        ) : (
          <PlainButton
            onPress={() =>
              void services.sync.newCode().then((result) => {
                if (result.type === 'code') made.value = result;
                else trouble.value = result.why;
              })
            }
          >
            Make a code for another phone
          </PlainButton>
        )}
      </div>
      <SectionHead title="Phones of this station" right={phones.value ? String(phones.value.length) : undefined} />
      {phones.value === null && (
        <p class="desk-note">The list comes from the server; it does not answer at the moment.</p>
      )}
      {phones.value?.map((phone) => (
        <Row
          key={phone.id}
          title={`${phone.name}${phone.me ? ' (this one)' : ''}`}
          second={`Paired ${day(phone.pairedAt)}, ${phone.seenAt ? `last heard ${day(phone.seenAt)}, ${clock(phone.seenAt)}` : 'not heard since'}. ${phone.me ? '' : 'Press to take it off.'}`}
          onPress={phone.me ? undefined : () => void services.sync.revoke(phone.id).then(load)}
        />
      ))}
      <div class="desk-part">
        <PlainButton onPress={() => void services.sync.unpair()}>Unpair this phone; its record stays on it</PlainButton>
      </div>
    </>
  );
}
