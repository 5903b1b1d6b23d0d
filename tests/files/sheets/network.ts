// Switch port lists of IT people, and pull lists of contractors. Invented.
import type { Fixture } from './fixture.ts';

export const NETWORK: Fixture[] = [
  {
    name: 'switch port list',
    who: 'an IT person who never saw a cable number',
    anyOrder: true,
    sheets: [
      {
        name: 'SW1',
        rows: `
Switch | Port | VLAN | Connected device | Device port | Patch cable
SW1 | Gi1/0/1 | 10 | AIO21 | NET A | 8001 => 8001: SW1 @ Gi1/0/1 > AIO21 @ NET A
SW1 | Gi1/0/2 | 10 | AIO22 | NET A | 8002 => 8002: SW1 @ Gi1/0/2 > AIO22 @ NET A
SW1 | Gi1/0/3 | 20 | CON30 | NET A | 8003 => 8003: SW1 @ Gi1/0/3 > CON30 @ NET A
SW1 | Gi1/0/4 | | | |
SW1 | Gi1/0/5 | 20 | SRV1 | eth0 | 8005 => 8005: SW1 @ Gi1/0/5 > SRV1 @ eth0`,
      },
    ],
  },
  {
    name: 'switch port list without cable numbers',
    who: 'another IT person',
    anyOrder: true,
    sheets: [
      {
        name: 'Ports',
        rows: `
Switch | Switch Port | Device | Device Port | VLAN | Speed
SW2 | 1 | AIO21 | NET B | 10 | 1G => : SW2 @ 1 > AIO21 @ NET B
SW2 | 2 | AIO22 | NET B | 10 | 1G => : SW2 @ 2 > AIO22 @ NET B
SW2 | 3 | CON30 | NET B | 20 | 1G => : SW2 @ 3 > CON30 @ NET B
SW2 | 24 | SW1 | 24 | trunk | 10G => : SW2 @ 24 > SW1 @ 24`,
      },
    ],
  },
  {
    name: 'pull list with feet and marks',
    who: 'an American style contractor',
    sheets: [
      {
        name: 'Pull List',
        rows: `
WIRE # | FROM RM | FROM DEV | FROM TERM | TO RM | TO DEV | TO TERM | WIRE TYPE | FT | PULLED
W1001 | TOC | AIO21 | J1 | STA | CON30 | J11 | 2PR 22 | 75 | X => W1001: AIO21 @ J1 > CON30 @ J11 {type=2PR 22}
W1002 | TOC | AIO21 | J2 | STA | CON30 | J12 | 2PR 22 | 75 | X => W1002: AIO21 @ J2 > CON30 @ J12 {type=2PR 22}
W1003 | TOC | AIO22 | J1 | STB | CON31 | J11 | 2PR 22 | 110 | => W1003: AIO22 @ J1 > CON31 @ J11 {type=2PR 22}
W1004 | TOC | AIO22 | J2 | STB | CON31 | J12 | 2PR 22 | 110 | => W1004: AIO22 @ J2 > CON31 @ J12 {type=2PR 22}`,
      },
    ],
  },
  {
    name: 'patch leads between racks',
    who: 'a data centre hand',
    anyOrder: true,
    sheets: [
      {
        name: 'Leads',
        rows: `
Lead | Rack A | U A | Device A | Port A | Rack B | U B | Device B | Port B
L01 | R1 | 12 | SW1 | 1 | R2 | 20 | SRV1 | A => L01: SW1 @ 1 > SRV1 @ A
L02 | R1 | 12 | SW1 | 2 | R2 | 22 | SRV2 | A => L02: SW1 @ 2 > SRV2 @ A
L03 | R1 | 13 | SW2 | 1 | R2 | 20 | SRV1 | B => L03: SW2 @ 1 > SRV1 @ B
L04 | R1 | 13 | SW2 | 2 | R2 | 22 | SRV2 | B => L04: SW2 @ 2 > SRV2 @ B`,
      },
    ],
  },
  {
    name: 'addresses beside the ports',
    who: 'an audio over IP person',
    sheets: [
      {
        name: 'AoIP',
        rows: `
Cable | Device | NIC | IP Address | MAC | Switch | Port
9001 | AIO21 | 1 | 192.0.2.21 | 00:00:5E:00:53:21 | SW1 | 7 => 9001: AIO21 @ 1 > SW1 @ 7
9002 | AIO22 | 1 | 192.0.2.22 | 00:00:5E:00:53:22 | SW1 | 8 => 9002: AIO22 @ 1 > SW1 @ 8
9003 | CON30 | 1 | 192.0.2.30 | 00:00:5E:00:53:30 | SW1 | 9 => 9003: CON30 @ 1 > SW1 @ 9
9004 | CON30 | 2 | 198.51.100.30 | 00:00:5E:00:53:31 | SW2 | 9 => 9004: CON30 @ 2 > SW2 @ 9`,
      },
    ],
  },
];
