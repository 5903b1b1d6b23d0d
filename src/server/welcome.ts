// What the server says on the terminal: where it is, how a phone gets there over trusted HTTPS, and a pairing code.
// Text only; nothing here opens or reads anything.
import { renderUnicodeCompact } from 'uqr';
import { codeToPayload } from '../wire/sync.ts';
import type { MadeCode } from './phones/pairing.ts';

export type Reach = {
  port: number;
  /** Addresses of this machine that others can use. */
  addresses: string[];
  /** Names in the certificate; null when the server speaks plain HTTP. */
  certificate: { names: string[]; until: Date } | null;
};

export function reachText(reach: Reach, now: number): string {
  const { port, certificate } = reach;
  if (!certificate) {
    const at = reach.addresses[0] ?? 'this-machine';
    return [
      `Asfound is at http://localhost:${port}`,
      '',
      'A phone needs HTTPS with a certificate it trusts; over plain HTTP the app does not open there, and says so.',
      `This machine is ${reach.addresses.join(', ') || 'not on a network'}. One of these two ways:`,
      `  1. A name such as audit.example.org that points to ${at}, with a certificate from a public authority`,
      '     (proved over DNS, so the server need not be reachable from outside). Start with',
      `     ASFOUND_TLS_CERT=fullchain.pem ASFOUND_TLS_KEY=privkey.pem, then open https://audit.example.org:${port}`,
      '  2. A reverse proxy that has such a certificate already, passing on to this port.',
      'Never change the name or port: at another address a phone finds an empty app.',
    ].join('\n');
  }
  const days = Math.floor((certificate.until.getTime() - now) / 86_400_000);
  const [name = 'localhost'] = certificate.names;
  return [
    `Asfound is at https://${name}:${port}`,
    `A phone opens the same address; the certificate names ${certificate.names.join(', ') || 'nothing'}.`,
    days < 0
      ? 'The certificate has EXPIRED: phones keep working offline but cannot send until it is renewed.'
      : days === 1
        ? 'The certificate ends in 1 day.'
        : `The certificate ends in ${days} days.`,
    'Never change the name or port: at another address a phone finds an empty app.',
  ].join('\n');
}

export function codeText({ code, station }: MadeCode): string {
  const spaced = code.replace(/(.{5})(?=.)/g, '$1 ');
  return [
    station ? `Pairing code for the station “${station.name}”:` : 'Pairing code for a new station:',
    '',
    `    ${spaced}`,
    '',
    renderUnicodeCompact(codeToPayload(code), { ecc: 'M', border: 2 }),
    '',
    'It works once, within 15 minutes. Another one: npm run pair',
  ].join('\n');
}
